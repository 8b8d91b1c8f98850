package command

// zshScript is a function for a folder of $fpath, under the name _PROGRAM.
var zshScript = script(`#compdef {{.Name}}
_{{.Name}}() {
	local place={{.Name}} word prev=${words[CURRENT-1]}
	local -a offers flags files texts
	local file=
	for word in ${words[2,CURRENT-1]}; do
		case "$place $word" in
{{- range .Places}}{{if .Last}}
		({{quoted .Path}}) place={{quoted .Path}} ;;
{{- end}}{{end}}
		esac
	done
	case $place in
{{- range .Places}}
	({{quoted .Path}})
		offers=({{.Offers}}) files=({{.FlagNames "file"}}) texts=({{.FlagNames "text"}}) file={{if .Files}}yes{{end}}
		flags=({{.FlagNames "any"}}) ;;
{{- end}}
	esac
	(( ${texts[(Ie)$prev]} )) && return 1
	if (( ${files[(Ie)$prev]} )); then
		_files
		return
	fi
	if [[ ${words[CURRENT]} == -* ]]; then
		compadd -- $flags
		return
	fi
	(( $#offers )) && compadd -- $offers
	[[ -n $file ]] && _files
	return 0
}
if [[ $zsh_eval_context[-1] == loadautofunc ]]; then
	_{{.Name}} "$@"
else
	(( $+functions[compdef] )) && compdef _{{.Name}} {{.Name}}
fi
`)
