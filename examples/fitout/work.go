package main

import "strings"

// orderOfWork is every step of every section, by stages.
func orderOfWork(sections []*section) *section {
	o := &section{ID: "work", Title: "Order of work"}
	o.say("Do a stage for the whole boat before the next one: what does not come out as expected is cheaper to put right before it is cut, crimped or sewn. The figures expected are those of this plan.")
	steps := 0
	var used []string
	for st, name := range stages {
		t := table{Caption: name, Head: []string{"do", "expect"}}
		for _, s := range sections {
			for _, x := range s.steps {
				if x.stage == stage(st) {
					t.Rows = append(t.Rows, []string{x.do, x.expect})
				}
			}
		}
		if len(t.Rows) > 0 {
			o.table(t)
			steps += len(t.Rows)
			used = append(used, strings.ToLower(name))
		}
	}
	o.do("Go through the %d steps of the order of work: %s.", steps, strings.Join(used, ", "))
	return o
}
