package command

// bashScript needs bash alone, not the package bash-completion.
var bashScript = script(`# bash completion of {{.Name}}
_{{.Name}}() {
	local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]} path={{.Name}} offers flags files texts file i
	for ((i = 1; i < COMP_CWORD; i++)); do
		case "$path ${COMP_WORDS[i]}" in
{{- range .Places}}{{if .Last}}
		{{quoted .Path}}) path={{quoted .Path}} ;;
{{- end}}{{end}}
		esac
	done
	case $path in
{{- range .Places}}
	{{quoted .Path}}) offers={{quoted .Offers}} flags={{quoted (.FlagNames "any")}} files={{quoted (.FlagNames "file")}} texts={{quoted (.FlagNames "text")}} file={{if .Files}}yes{{end}} ;;
{{- end}}
	esac
	COMPREPLY=()
	case " $files " in *" $prev "*) cur=${cur#=} offers= flags= file=yes ;; esac
	case " $texts " in *" $prev "*) return ;; esac
	if [[ $cur == -* ]]; then
		COMPREPLY=($(compgen -W "$flags" -- "$cur"))
		return
	fi
	COMPREPLY=($(compgen -W "$offers" -- "$cur"))
	if [[ $file ]]; then
		compopt -o filenames 2>/dev/null
		local IFS=$'\n'
		COMPREPLY+=($(compgen -f -- "$cur"))
	fi
}
complete -F _{{.Name}} {{.Name}}
`)
