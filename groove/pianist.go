package groove

// piano is the comp of a pass.
func (p *plan) piano() []gridNote { return nil }
