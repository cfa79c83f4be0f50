# Completion of inkturn for bash: the program itself says what may be typed next.

_inkturn()
{
    # Words as they were typed, up to the cursor: bash also splits them at = and :.
    local line=${COMP_LINE:0:COMP_POINT} words=() word i
    for ((i = 0; i <= COMP_CWORD; i++)); do
        word=${COMP_WORDS[i]}
        if ((i > 0)) && [[ -n $line && $line != [[:space:]]* ]]; then
            ((i == COMP_CWORD)) && word=$line
            words[-1]+=$word
        else
            line=${line#"${line%%[![:space:]]*}"}
            ((i == COMP_CWORD)) && word=$line
            words+=("$word")
        fi
        line=${line#"$word"}
    done

    # Only what follows the last = or : is bash's to replace.
    local last=${words[-1]} offer
    local before=${last%"${last##*[=:]}"}
    COMPREPLY=()
    while IFS=$'\t' read -r offer _; do
        if [[ $offer == :files ]]; then
            compopt -o filenames 2>/dev/null
            while IFS= read -r offer; do
                COMPREPLY+=("$offer")
            done < <(compgen -f -- "${last#"$before"}")
            continue
        fi
        [[ $offer == *[=:] ]] && compopt -o nospace 2>/dev/null
        offer=${offer#"$before"}
        [[ $offer == *[[:space:]]* ]] && printf -v offer %q "$offer"
        COMPREPLY+=("$offer")
    done < <("${words[0]}" complete "${words[@]:1}" 2>/dev/null)
}

complete -F _inkturn inkturn
