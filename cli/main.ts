#!/usr/bin/env node
// Ctrl-C is heard before the program proper, which takes a moment to load, is there.
import { EXIT } from './exit-codes.ts';

const abandon = { isAsked: false, end: () => process.exit(EXIT.abandoned) };
for (const signal of ['SIGINT', 'SIGTERM'] as const) {
  process.on(signal, () => {
    abandon.isAsked = true;
    abandon.end();
  });
}

const { program } = await import('./program.ts');
process.exitCode = await program(process.argv.slice(2), abandon);
