# Completes the commands and options of glowcast in bash. Load it with: source <(glowcast completion bash)
_glowcast() {
  local IFS=$'\n'
  COMPREPLY=($(compgen -W "$(glowcast "[suggest:$COMP_POINT]" "$COMP_LINE" 2>/dev/null)" -- "${COMP_WORDS[COMP_CWORD]}"))
}
complete -o default -F _glowcast glowcast
