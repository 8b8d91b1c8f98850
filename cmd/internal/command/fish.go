package command

// fishScript asks where the line stands by the words that are no flags.
var fishScript = script(`# fish completion of {{.Name}}
function __{{.Name}}_at
	set -l words (commandline -opc)
	set -l place {{.Name}}
	for word in $words[2..]
		switch "$place $word"
{{- range .Places}}{{if .Last}}
			case {{quoted .Path}}
				set place {{quoted .Path}}
{{- end}}{{end}}
		end
	end
	test "$place" = "$argv[1]"
end
complete -c {{.Name}} -f
{{- range .Places}}{{$at := printf "__%s_at \"%s\"" $.Name .Path}}
{{- range .Verbs}}
complete -c {{$.Name}} -n {{quoted $at}} -a {{quoted .Name}} -d {{quoted .About}}
{{- end}}
{{- if .Words}}
complete -c {{$.Name}} -n {{quoted $at}} -a {{quoted .Offers}}
{{- end}}
{{- if .Files}}
complete -c {{$.Name}} -n {{quoted $at}} -F
{{- end}}
{{- range .Flags}}
complete -c {{$.Name}} -n {{quoted $at}} -o {{.Name}}{{if eq .Takes "file"}} -r -F{{else if .Takes}} -x{{end}} -d {{quoted .About}}
{{- end}}
{{- end}}
`)
