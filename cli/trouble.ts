import { CannotMake } from '../src/index.ts';

const SYSTEM_WORDS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  EISDIR: 'it is a folder',
  ENOTDIR: 'a file stands where a folder should be',
  EACCES: 'you have no right to it',
  EPERM: 'you have no right to it',
  EROFS: 'that place can only be read from',
  ENOSPC: 'the disk is full',
  ENAMETOOLONG: 'its name is too long',
  ELOOP: 'links lead in a circle',
};

/** Why the system would not, in words. */
export function systemWords(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  return SYSTEM_WORDS[code ?? ''] ?? message;
}

/** A refusal where the memory ran out, which is not the program's fault; any other error as it is. */
export function unlessMemory(error: unknown): unknown {
  const { code, message } = error as NodeJS.ErrnoException;
  const isOut =
    code === 'ERR_WORKER_OUT_OF_MEMORY' || (error instanceof RangeError && /allocation failed/.test(message));
  if (!isOut) return error;
  const fix = 'Use a landform of fewer posts or triangles, or a machine with more memory.';
  return new CannotMake([{ code: 'memory/full', message: 'There is not enough memory for this job.', fix, where: {} }]);
}

/** Text from a file as a terminal may show it: on one line, and without the codes that move the cursor or paint. */
export const plain = (text: string): string => text.replace(/\p{Cc}/gu, '·');
