# Completes the commands and options of glowcast in fish. Load it with: glowcast completion fish | source
function __glowcast_words
    set -l line (commandline -cp)
    glowcast "[suggest:"(string length -- "$line")"]" "$line" 2>/dev/null
end
complete -c glowcast -a '(__glowcast_words)'
