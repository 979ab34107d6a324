/** Everything that can go wrong with a log: what, where, and the remedy. Nothing here ever means that data is lost. */
import { shortLine, type Problem } from '../form/problem.ts';

export type LogErrorCode =
  | 'bad-id'
  | 'bad-entry'
  | 'broken-file'
  | 'newer-version'
  | 'other-bike'
  | 'outside'
  | 'not-a-folder'
  | 'read-only'
  | 'disk-full'
  | 'gone'
  | 'busy'
  | 'sheet-behind'
  | 'nothing-to-undo'
  | 'nothing-to-redo'
  | 'no-way-back'
  | 'io';

export class LogError extends Error {
  readonly code: LogErrorCode;
  readonly remedy: string;
  /** the file or folder that is meant */
  readonly file: string | undefined;
  /** all mistakes of a broken file, in order */
  readonly problems: readonly Problem[];

  constructor(
    code: LogErrorCode,
    message: string,
    remedy: string,
    more: { file?: string; problems?: readonly Problem[]; cause?: unknown } = {},
  ) {
    super(message, more.cause === undefined ? {} : { cause: more.cause });
    this.name = 'LogError';
    this.code = code;
    this.remedy = remedy;
    this.file = more.file;
    this.problems = more.problems ?? [];
  }
}

export function brokenFile(problems: readonly Problem[]): LogError {
  const file = problems[0]?.file ?? '';
  return new LogError(
    'broken-file',
    problems.map(shortLine).join('\n'),
    'Nothing was changed. Correct the file in an editor, or take it back from a copy.',
    { file, problems },
  );
}

const BY_ERRNO: Readonly<Record<string, { code: LogErrorCode; says: string; remedy: string }>> = {
  EACCES: {
    code: 'read-only',
    says: 'may not be written',
    remedy: 'Allow writing there, or set EARSHOT_HOME to a folder of your own.',
  },
  EPERM: {
    code: 'read-only',
    says: 'may not be written',
    remedy: 'Allow writing there, or set EARSHOT_HOME to a folder of your own.',
  },
  EROFS: {
    code: 'read-only',
    says: 'is on a read-only disk',
    remedy: 'Set EARSHOT_HOME to a folder that can be written.',
  },
  ENOSPC: {
    code: 'disk-full',
    says: 'does not fit: the disk is full',
    remedy: 'Free some space and try again. What was there before is unharmed.',
  },
  EDQUOT: {
    code: 'disk-full',
    says: 'does not fit: your share of the disk is used up',
    remedy: 'Free some space and try again. What was there before is unharmed.',
  },
  EFBIG: {
    code: 'disk-full',
    says: 'has grown too large for this disk',
    remedy: 'Move the log to another disk with EARSHOT_HOME. What was there before is unharmed.',
  },
  ENOENT: {
    code: 'gone',
    says: 'is not there and cannot be made: the folder above it was removed, or cannot be written to',
    remedy: 'Put that folder back, or set EARSHOT_HOME to one that stays; then do it again.',
  },
  ENOTDIR: {
    code: 'not-a-folder',
    says: 'is in the way: a file stands where a folder of the log belongs',
    remedy: 'Move that file, or set EARSHOT_HOME to another folder.',
  },
  EEXIST: {
    code: 'not-a-folder',
    says: 'is in the way: a file stands where a folder of the log belongs',
    remedy: 'Move that file, or set EARSHOT_HOME to another folder.',
  },
  EISDIR: {
    code: 'not-a-folder',
    says: 'is in the way: a folder stands where a file of the log belongs',
    remedy: 'Move that folder.',
  },
  ELOOP: {
    code: 'outside',
    says: 'is a link; the log writes only to files of its own',
    remedy: 'Put the file itself in its place.',
  },
};

/** A failure of the file system as a LogError about that path; a LogError stays as it is. */
export function asLogError(error: unknown, file: string): LogError {
  if (error instanceof LogError) return error;
  const errno = (error as NodeJS.ErrnoException).code ?? '';
  const known = BY_ERRNO[errno];
  if (known === undefined) {
    return new LogError(
      'io',
      `${file} cannot be used (${errno || String(error)}).`,
      'Look at the disk, and try again.',
      { file, cause: error },
    );
  }
  return new LogError(known.code, `${file} ${known.says}.`, known.remedy, { file, cause: error });
}
