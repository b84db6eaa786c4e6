package anchor

// law is H = reference (W / 10 kip)^exponent in a soil.
type law struct{ reference, exponent float64 } // kip

// leastKips is where the curves of the laws begin (figures 5-4 and 5-5 of the source
// below, recalled and not read).
const leastKips = 1

// holdingLaws are those of NCEL Techdata Sheet 83-08R as UFC 4-159-03 (2005),
// tables 5-3 and 5-4, has them, recalled and not read. The efficiencies that
// bound them are those for class approval (IACS UR A1.4; Rec. 10).
var holdingLaws = [...]struct {
	mud, sand law
}{
	StocklessHinged: {law{24, 0.92}, law{70, 0.80}},
	StocklessFixed:  {law{46, 0.92}, law{70, 0.80}},
	PlateHinged:     {law{87, 0.92}, law{126, 0.80}},
	PlateBridle:     {law{210, 0.94}, law{270, 0.94}},
	Claw:            {law{32, 0.92}, law{250, 0.80}},
}
