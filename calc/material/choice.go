package material

import "kerfside/calc/form"

// Choice is the type of a field that takes any of the metals.
func Choice() *form.Type {
	return form.OneOf(
		string(MildSteel), "Mild steel", string(Galvanised), "Galvanised", string(Stainless), "Stainless", string(Aluminium), "Aluminium",
		string(Copper), "Copper", string(Brass), "Brass", string(CastIron), "Cast iron",
	)
}
