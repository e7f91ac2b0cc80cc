package score

// NameTexture names a row by how often it strikes and by whether it has something special.
func NameTexture(attacks, bars int, special bool, word, other string) string {
	switch {
	case attacks == 0:
		return "silent"
	case special:
		return word
	case attacks <= bars:
		return "held"
	}
	return other
}
