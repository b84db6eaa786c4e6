package svg

// PrefixWanted says what a prefix is made of.
const PrefixWanted = "a lower-case letter, then lower-case letters, digits and hyphens"

// IsPrefix reports whether classes and ids may begin with a string: it is what
// [PrefixWanted] says. The empty string is not.
func IsPrefix(s string) bool {
	for i, r := range s {
		if !(r >= 'a' && r <= 'z') && (i == 0 || !(r >= '0' && r <= '9' || r == '-')) {
			return false
		}
	}
	return s != ""
}
