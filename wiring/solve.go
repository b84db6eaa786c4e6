package wiring

// Solve finds the voltage of every node and the current of every element.
func Solve(c Circuit, at Conditions) (*Solution, error) {
	return nil, refuseAs(ErrNoSolution, "Solve", "unfinished", "")
}
