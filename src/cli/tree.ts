/** The program as plain data, for what completes its lines. */
import type { Argument, Command, Option } from 'commander';
import type { CompletionCommand, CompletionOption, Takes } from '../report/completion/completion.ts';

/** Options of the program itself may stand behind any command, so each one lists them. */
export function completionTree(program: Command): CompletionCommand {
  const everywhere = program.options.filter((o) => o.long !== '--version');
  const one = (command: Command, top: boolean): CompletionCommand => {
    const options = top ? command.options : [...command.options, ...everywhere];
    const commands = command.commands.map((sub) => one(sub, false));
    return {
      name: command.name(),
      about: command.description(),
      options: [...options.filter((o) => !o.hidden).map(optionOf), HELP],
      args: command.registeredArguments.map((argument) => ({
        name: argument.name(),
        takes: takesOf(argument),
      })),
      variadic: command.registeredArguments.at(-1)?.variadic === true,
      commands: top ? [...commands, helpOf(commands)] : commands,
    };
  };
  return one(program, true);
}

const HELP: CompletionOption = { names: ['-h', '--help'], about: 'show help', takes: null, optional: false };

function helpOf(commands: readonly CompletionCommand[]): CompletionCommand {
  const takes: Takes = { kind: 'choice', choices: commands.map((c) => c.name) };
  return {
    name: 'help',
    about: 'help on a command',
    options: [],
    args: [{ name: 'command', takes }],
    variadic: false,
    commands: [],
  };
}

function optionOf(option: Option): CompletionOption {
  return {
    names: [option.short, option.long].filter((name) => name !== undefined),
    about: option.description,
    takes: option.required || option.optional ? takesOf(option) : null,
    optional: option.optional,
  };
}

/** Files are told by the name of the place they stand in, `<file>` or `<case>`, which the help shows too. */
function takesOf(place: Option | Argument): Takes {
  if (place.argChoices !== undefined) return { kind: 'choice', choices: place.argChoices };
  const name = 'flags' in place ? (/[<[]([\w-]+)/.exec(place.flags)?.[1] ?? '') : place.name();
  if (/^(folder|dir)s?$/.test(name)) return { kind: 'folder' };
  return { kind: /^(file|case|sheet|log)s?$/.test(name) ? 'file' : 'text' };
}
