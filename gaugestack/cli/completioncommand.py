"""The command `completion`: what a shell needs so that its Tab key completes commands and values."""

from __future__ import annotations

from typing import Annotated

import typer

from gaugestack.cli.shared import finish
from gaugestack.errors import UsageError, nearest

app = typer.Typer()

_BASH = r"""
_gaugestack() {
    local line value files= cur=${COMP_WORDS[COMP_CWORD]}
    [[ $cur == [=:] ]] && cur=
    COMPREPLY=()
    while IFS= read -r line; do
        value=${line%%$'\t'*}
        if [[ -z $value ]]; then
            files=${line#$'\t'}
        elif [[ $cur == [\'\"]* ]]; then
            COMPREPLY+=("$value")
        else
            printf -v value %q "$value"
            COMPREPLY+=("$value")
        fi
    done < <(_GAUGESTACK_COMPLETE=bash "$1" "${COMP_LINE:0:COMP_POINT}" 2>/dev/null)
    [[ $files ]] || return 0
    compopt -o filenames 2>/dev/null
    while IFS= read -r line; do
        [[ $files == any || -d $line || $line == *.yaml || $line == *.yml ]] && COMPREPLY+=("$line")
    done < <(compgen -f -- "$cur")
    return 0
}
complete -F _gaugestack gaugestack
"""
_ZSH = r"""
#compdef gaugestack
_gaugestack() {
    local line value means files
    local -a plain said
    while IFS= read -r line; do
        value=${line%%$'\t'*} means=${line#*$'\t'}
        if [[ -z $value ]]; then
            files=$means
        else
            plain+=("$value") said+=("$value${means:+  -- $means}")
        fi
    done < <(_GAUGESTACK_COMPLETE=zsh "${(Q)words[1]}" "${(@)words[2,CURRENT]}" 2>/dev/null)
    (( $#plain )) && compadd -l -d said -a plain
    [[ -n $files ]] && compset -P '--*='
    case $files in
        yaml) _files -g '*.(yaml|yml)' ;;
        any) _files ;;
    esac
}
if [[ $funcstack[1] == _gaugestack ]]; then
    _gaugestack "$@"
else
    compdef _gaugestack gaugestack
fi
"""
_FISH = r"""
function __gaugestack_complete
    set -l words (commandline -opc)
    set -l program $words[1]
    set -e words[1]
    set -l current (commandline -ct)
    set -l option (string match -r -- '^--[^=]+=' "$current")
    set -l path (string replace -r -- '^--[^=]+=' '' "$current")
    for line in (env _GAUGESTACK_COMPLETE=fish $program $words "$current" 2>/dev/null)
        switch $line
            case \tyaml
                for file in (__fish_complete_path "$path" | string match -r -- '^.*(?:/|\.ya?ml)(?:\t.*)?$')
                    printf '%s\n' "$option$file"
                end
            case \tany
                for file in (__fish_complete_path "$path")
                    printf '%s\n' "$option$file"
                end
            case '*'
                printf '%s\n' $line
        end
    end
end
complete -c gaugestack -f -a '(__gaugestack_complete)'
"""
SCRIPTS = {"bash": _BASH.lstrip(), "zsh": _ZSH.lstrip(), "fish": _FISH.lstrip()}


@app.command(epilog="Example: gaugestack completion bash")
def completion(
    shell: Annotated[str, typer.Argument(metavar="SHELL", help="bash, zsh or fish.")],
) -> None:
    """Print the script that makes the Tab key complete in a shell."""
    if shell not in SCRIPTS:
        raise UsageError.about("SHELL", f"{shell!r} is no shell known here", hint=nearest(shell, SCRIPTS))
    finish(SCRIPTS[shell])
