/** What the YAML library finds wrong, said as somebody says it who types a sheet and does not know the format. */

interface Fault {
  readonly message: string;
  readonly remedy: string;
}

const QUOTES = 'Put the text in quotes.';

/** By the codes of the library; what is not here hardly comes of a slip of the hand. */
const FAULTS: Readonly<Record<string, Fault>> = {
  MULTILINE_IMPLICIT_KEY: {
    message: 'A key and its colon must be on one line.',
    remedy: 'Write key: value. A text of several lines goes in quotes.',
  },
  BLOCK_AS_IMPLICIT_KEY: {
    message: 'There is a second colon on this line.',
    remedy: 'Give each key a line of its own. A text with a colon goes in quotes.',
  },
  BLOCK_IN_FLOW: {
    message: 'This line does not fit inside the brackets that are open here.',
    remedy: 'Close the bracket before it: } or ].',
  },
  MISSING_CHAR: {
    message: 'A colon, a comma, a quote or a bracket is missing here.',
    remedy:
      'Add it. Every { needs its }, every [ its ], every quote a second one; a text with { } : or # goes in quotes.',
  },
  BAD_INDENT: {
    message: 'This line begins in the wrong column.',
    remedy: 'Lines that belong together begin in the same column. Check also that every bracket is closed.',
  },
  TAB_AS_INDENT: { message: 'This line begins with a tab.', remedy: 'Use blanks.' },
  BAD_SCALAR_START: { message: 'A text cannot begin with this character.', remedy: QUOTES },
  BAD_DQ_ESCAPE: {
    message: 'A backslash means nothing here.',
    remedy: "Put the text in single quotes: 'text'.",
  },
  BAD_ALIAS: { message: 'A text cannot begin with * or &.', remedy: QUOTES },
  TAG_RESOLVE_FAILED: { message: 'A text cannot begin with !.', remedy: QUOTES },
  UNEXPECTED_TOKEN: {
    message: 'This does not belong here.',
    remedy: 'Remove it, or put a text with { } : or # in quotes.',
  },
  MULTIPLE_DOCS: {
    message: 'A second document begins here.',
    remedy: 'Remove the line --- or put the rest in a file of its own.',
  },
};

const OTHER: Fault = {
  message: 'This line cannot be read.',
  remedy: 'Check indents and colons, and put a text with { } : or # in quotes.',
};

/** @param code of an error or a warning of the library */
export function yamlFault(code: string): Fault {
  return Object.hasOwn(FAULTS, code) ? FAULTS[code]! : OTHER;
}
