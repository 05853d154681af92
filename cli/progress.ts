import type { WriteStream } from 'node:tty';
import type { StageName } from '../src/index.ts';

const WORDS: Readonly<Record<StageName, string>> = {
  source: 'reading the ground',
  shape: 'shaping the ground',
  slice: 'slicing into layers',
  split: 'dividing into pieces',
  nest: 'laying pieces on boards',
  document: 'drawing',
};

/** One line that says what is being done, on a terminal only: nothing of it reaches a file or a pipe. */
export function progressLine(stream: WriteStream, isWanted: boolean) {
  const isShown = isWanted && stream.isTTY === true;
  return {
    show(stage: StageName, done: number): void {
      if (isShown) stream.write(`\r\u001b[K${WORDS[stage]} ${Math.round(done * 100)} %`);
    },
    clear(): void {
      if (isShown) stream.write('\r\u001b[K');
    },
  };
}
