/** The completion script for bash, from 3.2 up. */
import { placed, quoted, type CompletionCommand, type Placed, type Takes } from './completion.ts';

export function bashCompletion(program: CompletionCommand): string {
  const all = placed(program);
  const me = program.name;
  return `# Completion of ${me} for bash. Load it with: source <(${me} completion bash)
_${me}_say() {
  local line
  while IFS= read -r line; do COMPREPLY+=("$line"); done
}
_${me}_files() {
  # Old shells have no compopt; there a folder is completed without its slash.
  compopt -o filenames 2>/dev/null
  _${me}_say < <(compgen "$1" -- "$cur")
}
_${me}() {
  local cur=\${COMP_WORDS[COMP_CWORD]} before='' path='' args=0 skip='' word i
  COMPREPLY=()
  for ((i = 1; i < COMP_CWORD; i++)); do
    word=\${COMP_WORDS[i]}
    # bash cuts --option=value at the sign.
    [[ $word == '=' ]] && { [[ $skip == maybe ]] && skip=yes; continue; }
    if [[ $skip == yes ]]; then skip=''; before=''; continue; fi
    skip=''
    before=$word
    case "$path|$word" in
${lines(all.flatMap(steps))}
${lines(all.flatMap(skips))}
      *'|-'?*) ;;
      *) args=$((args + 1)) ;;
    esac
  done
  [[ $cur == '=' ]] && cur=''
  case "$path|$before" in
${lines(all.flatMap(values))}
  esac
  if [[ $cur == -* ]]; then
    case "$path" in
${lines(all.map(({ path, command }) => `${quoted(path)}) ${say(command.options.flatMap((o) => o.names))} ;;`))}
    esac
    return
  fi
  case "$path|$args" in
${lines(all.flatMap(words))}
  esac
}
complete -F _${me} ${me}
`;

  function say(list: readonly string[]): string {
    return `_${me}_say < <(compgen -W ${quoted(list.join(' '))} -- "$cur")`;
  }

  function offer(takes: Takes): string {
    if (takes.kind === 'choice') return say(takes.choices);
    if (takes.kind === 'file') return `_${me}_files -f`;
    return takes.kind === 'folder' ? `_${me}_files -d` : ':';
  }

  /** From one command to the next. */
  function steps({ path, command }: Placed): string[] {
    return command.commands.map(
      (sub) =>
        `${quoted(`${path}|${sub.name}`)}) path=${quoted(path === '' ? sub.name : `${path} ${sub.name}`)}; args=0 ;;`,
    );
  }

  /** Options whose next word is their value, and no argument. */
  function skips({ path, command }: Placed): string[] {
    return [false, true].flatMap((optional) => {
      const names = command.options
        .filter((o) => o.takes !== null && o.optional === optional)
        .flatMap((o) => o.names.map((name) => quoted(`${path}|${name}`)));
      return names.length === 0 ? [] : [`${names.join(' | ')}) skip=${optional ? 'maybe' : 'yes'} ;;`];
    });
  }

  function values({ path, command }: Placed): string[] {
    return command.options.flatMap((o) => {
      if (o.takes === null) return [];
      const at = o.names.map((name) => quoted(`${path}|${name}`)).join(' | ');
      // A value that may be left out leaves room for what else may come.
      return [
        o.optional
          ? `${at}) [[ $cur == -* ]] || ${offer(o.takes)} ;;`
          : `${at}) ${offer(o.takes)}; return ;;`,
      ];
    });
  }

  function words({ path, command }: Placed): string[] {
    const subs =
      command.commands.length === 0
        ? []
        : [`${quoted(`${path}|0`)}) ${say(command.commands.map((c) => c.name))} ;;`];
    return [
      ...subs,
      ...command.args.map(({ takes }, n) => {
        const repeats = command.variadic && n === command.args.length - 1;
        return `${repeats ? `${quoted(`${path}|`)}*` : quoted(`${path}|${n}`)}) ${offer(takes)} ;;`;
      }),
    ];
  }
}

function lines(list: readonly string[]): string {
  return list.map((line) => `      ${line}`).join('\n');
}
