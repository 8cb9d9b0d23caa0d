package main

import (
	"fmt"
	"strings"

	"github.com/urfave/cli/v2"
)

// Completion scripts: each asks the program itself with the hidden flag
// --generate-bash-completion that the command-line library answers.
var completions = map[string]string{
	"bash": `_routwright() {
  local cur="${COMP_WORDS[COMP_CWORD]}" words
  words="$("${COMP_WORDS[@]:0:COMP_CWORD}" --generate-bash-completion 2>/dev/null)"
  COMPREPLY=($(compgen -W "$words" -- "$cur"))
}
complete -o bashdefault -o default -F _routwright routwright
`,
	"zsh": `#compdef routwright
_routwright() {
  local -a words_found
  words_found=("${(@f)$(${words[@]:0:$((CURRENT-1))} --generate-bash-completion 2>/dev/null)}")
  if [[ -n "${words_found[1]}" ]]; then _describe 'routwright' words_found; else _files; fi
}
compdef _routwright routwright
`,
	"fish": `complete -c routwright -n __fish_use_subcommand -a "new check make frets key schema completion"
complete -c routwright -f -n "__fish_seen_subcommand_from completion" -a "bash zsh fish"
`,
}

func completionCommand() *cli.Command {
	return &cli.Command{
		Name:         "completion",
		Usage:        "print a script that completes commands in a shell",
		ArgsUsage:    "bash|zsh|fish",
		Description:  "Example:  routwright completion bash > ~/.local/share/bash-completion/completions/routwright",
		OnUsageError: usageError,
		Action: func(c *cli.Context) error {
			shell, err := oneArg(c, "the name of a shell: bash, zsh or fish")
			if err != nil {
				return err
			}
			script, ok := completions[shell]
			if !ok {
				return codedError{exitUsage, fmt.Errorf("no completion for %q; the shells are %s", shell, strings.Join([]string{"bash", "zsh", "fish"}, ", "))}
			}
			_, err = fmt.Fprint(c.App.Writer, script)
			return failed(err)
		},
	}
}
