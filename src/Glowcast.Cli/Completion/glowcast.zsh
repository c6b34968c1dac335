#compdef glowcast
# Completes the commands and options of glowcast in zsh. Load it with: source <(glowcast completion zsh)
_glowcast() {
  local -a found
  found=("${(@f)$(glowcast "[suggest:$CURSOR]" "$BUFFER" 2>/dev/null)}")
  found=(${found:#})
  if (( $#found )); then compadd -- $found; else _files; fi
}
compdef _glowcast glowcast
