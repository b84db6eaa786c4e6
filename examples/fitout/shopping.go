package main

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// article is one line of the shopping list: what all sections want of one thing.
type article struct {
	purchase
	why    []string
	buy    float64 // need, rounded up to what is sold
	priced *priceSpec
}

// articles adds up what the sections want, and rounds the sums to what is sold.
func (p *plan) articles(sections []*section) ([]article, error) {
	var list []article
	for _, s := range sections {
		for _, b := range s.buys {
			i := slices.IndexFunc(list, func(a article) bool { return a.what == b.what && a.unit == b.unit })
			if i < 0 {
				i = len(list)
				list = append(list, article{purchase: b})
				list[i].need = 0
			}
			a := &list[i]
			a.need += b.need
			a.step = max(a.step, b.step)
			if !slices.Contains(a.why, b.why) {
				a.why = append(a.why, b.why)
			}
		}
	}
	for i := range list {
		a := &list[i]
		if a.step == 0 {
			a.step = 1
		}
		a.buy = a.step * math.Ceil(a.need/a.step-1e-9)
	}
	slices.SortStableFunc(list, func(a, b article) int { return strings.Compare(a.kind, b.kind) })
	return list, p.setPrices(list)
}

// setPrices finds the price of each article: its own, or that of its kind.
func (p *plan) setPrices(list []article) error {
	if p.boat.Prices == nil {
		return nil
	}
	for i := range p.boat.Prices.Items {
		price, used := &p.boat.Prices.Items[i], false
		for j := range list {
			a := &list[j]
			if a.what == price.Of || a.kind == price.Of {
				used = true
				if a.priced == nil || a.what == price.Of {
					a.priced = price
				}
			}
		}
		if !used {
			var names []string
			for _, a := range list {
				names = append(names, strconv.Quote(a.what))
			}
			return &fileError{fmt.Sprintf("prices.items[%d].of", i), strconv.Quote(price.Of), "an item of the shopping list, or its kind: " + strings.Join(names, ", ")}
		}
	}
	return nil
}

func (p *plan) shopping(sections []*section) (*section, error) {
	s := &section{ID: "shopping", Title: "Shopping list"}
	list, err := p.articles(sections)
	if err != nil || len(list) == 0 {
		s.say("Nothing to buy.")
		return s, err
	}
	t := table{Caption: "To buy, rounded up to what is sold", Head: []string{"what", "buy", "needed", "for"}, Brief: 2}
	prices := p.boat.Prices
	if prices != nil {
		t.Head, t.Brief = []string{"what", "buy", prices.Currency, "needed", "for"}, 3
	}
	var low, high float64
	without := 0
	for _, a := range list {
		r := []string{a.what, amount(a.buy, a.unit), amount(a.need, a.unit), strings.Join(a.why, "; ")}
		if prices != nil {
			cost := ""
			if a.priced == nil {
				without++
			} else {
				low += a.buy * a.priced.Low
				high += a.buy * a.priced.High
				cost = span(a.buy*a.priced.Low, a.buy*a.priced.High)
			}
			r = slices.Insert(r, 2, cost)
		}
		t.Rows = append(t.Rows, r)
	}
	s.table(t)
	if prices == nil {
		s.do("Buy the %d items of the shopping list.", len(list))
		return s, nil
	}
	rest := ""
	if without > 0 {
		rest = fmt.Sprintf(", and %d of them without a price in the boat file", without)
	}
	s.do("Buy the %d items of the shopping list: %s %s%s.", len(list), span(low, high), prices.Currency, rest)
	s.say("Prices are those of the boat file, from low to high.")
	return s, nil
}

func span(low, high float64) string {
	if math.Round(low) == math.Round(high) {
		return fmt.Sprintf("%.0f", low)
	}
	return fmt.Sprintf("%.0f to %.0f", low, high)
}

// amount is a number of pieces, or a length or an area.
func amount(x float64, unit string) string {
	if unit == "" {
		return fmt.Sprintf("%.0f", x)
	}
	return strconv.FormatFloat(math.Round(x*100)/100, 'f', -1, 64) + " " + unit
}
