package shapes

// declareBodies declares what entries say of themselves. Anything may stand in one
// that another phone wrote, so that a value is looked at before it is used.
func (d *declarations) declareBodies() {
	d.file = journalFile
	d.declare("Body", comment("The body of an entry: its keys by kind are in the specification. Another phone may have written anything.", "")+
		"export interface Body {\n  [key: string]: unknown;\n}\n")
}
