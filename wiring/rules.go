package wiring

// Rules is a set of published rules for the wiring of small craft.
type Rules string

// The rule sets. Which one binds depends on the flag, the builder's declaration
// and the insurer; the others are a second opinion.
const (
	ISO      Rules = "ISO 13297"     // ISO 13297, and ISO 10133 before it: small craft, direct current
	CFR      Rules = "33 CFR 183"    // United States: law for boats with petrol (gasoline) inboard engines only (183.401, recalled); others may follow it
	E11      Rules = "ABYC E-11"     // United States: the voluntary standard of the trade
	IEC60092 Rules = "IEC 60092-352" // cables of ships
)

// AllRules lists the rule sets.
func AllRules() []Rules { return []Rules{ISO, CFR, E11, IEC60092} }
