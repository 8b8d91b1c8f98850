package material

import "kerfside/calc/form"

// Choice is the type of a field that takes any of the metals.
func Choice() *form.Type {
	return WithNames(form.OneOf(
		string(MildSteel), "Mild steel", string(Galvanised), "Galvanised", string(Stainless), "Stainless", string(Aluminium), "Aluminium",
		string(Copper), "Copper", string(Brass), "Brass", string(CastIron), "Cast iron",
	))
}

// WithNames lets a choice of metals be answered with what else they are called.
func WithNames(t *form.Type) *form.Type {
	t.Also = []string{
		"steel", "mild-steel", "ms", "mild-steel", "carbon-steel", "mild-steel", "low-carbon-steel", "mild-steel", "black-steel", "mild-steel",
		"stainless-steel", "stainless", "ss", "stainless", "inox", "stainless", "alu", "aluminium", "al", "aluminium",
		"grey-iron", "cast-iron", "grey-cast-iron", "cast-iron", "galvanised-steel", "galvanised", "galv", "galvanised",
	}
	return t
}
