# Completion of inkturn for fish: the program itself says what may be typed next.

function __inkturn_offers
    set -l typed (commandline -opc) (commandline -ct)
    for line in ($typed[1] complete $typed[2..] 2>/dev/null)
        if test "$line" = :files
            __fish_complete_path (commandline -ct)
        else
            echo $line
        end
    end
end

complete -c inkturn -f -a '(__inkturn_offers)'
