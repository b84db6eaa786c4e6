package svg

import (
	"strings"
	"unicode"
)

// TextWidth estimates the width of a text in a sans-serif face of a size in
// millimetres. What font a reader has is not known: it is that of a wide face,
// so that a text is rather narrower.
func TextWidth(s string, size float64) float64 {
	w := 0.0
	for _, r := range s {
		w += advance(r)
	}
	return w * size
}

// advance is the width of a character in ems.
func advance(r rune) float64 {
	switch {
	case strings.ContainsRune("ijlI|'", r):
		return 0.31
	case strings.ContainsRune(" \u00a0.,:;!()[]/\\-rft", r):
		return 0.42
	case strings.ContainsRune("mwMW%@—…", r):
		return 1
	case strings.ContainsRune("cksvxyzJL°", r):
		return 0.6
	case unicode.Is(unicode.Mn, r):
		return 0
	case r >= 0x2e80: // East Asian and pictures
		return 1.4
	case unicode.IsUpper(r):
		return 0.78
	case r > unicode.MaxASCII:
		return 0.8
	}
	return 0.64
}

// Wrap breaks a text into lines no wider than a width, between words where it
// can. A text without words has no lines.
func Wrap(s string, size, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		if line != "" && TextWidth(line+" "+word, size) <= width {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line = ""
		for _, r := range word {
			if line != "" && TextWidth(line+string(r), size) > width {
				lines = append(lines, line)
				line = ""
			}
			line += string(r)
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
