package source

var safety = []Source{}
