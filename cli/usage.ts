import yargs from 'yargs';
import { jobKeys, nearest } from '../src/index.ts';

const COMMANDS = ['make', 'look', 'compare', 'plugins', 'schema'] as const;
type Command = (typeof COMMANDS)[number];
/** Those that read a job, any value of which can be set on the line. */
const OF_JOB: readonly Command[] = ['make', 'look', 'compare'];

/** What was asked on the command line. */
export interface Asked {
  readonly command: Command;
  readonly file: string;
  readonly out: string;
  readonly seconds: number | null;
  readonly picture: string | null;
  /** Where the comparison is written as a page for a browser. */
  readonly table: string | null;
  readonly piecePrice: number | null;
  readonly schema: 'job' | 'plan';
  readonly plugins: readonly string[];
  readonly quiet: boolean;
  readonly json: boolean;
  readonly overrides: readonly { readonly path: string; readonly value: string }[];
}

/** The command line was wrong. Says what, and what would be right. */
export class WrongUsage extends Error {}

const FLAGS = ['out', 'seconds', 'picture', 'table', 'piece-price', 'plugin', 'quiet', 'json', 'help', 'version'];

/**
 * Read the command line. yargs is the parser, not the judge: values of the job (`--slice.layers.cut shy`) pass through
 * as text and are judged with the job file. Its silent conversions are off: they turn 007 into 7 and a repeated flag
 * into a list.
 */
export async function readUsage(argv: readonly string[]): Promise<Asked | null> {
  let command: Command | null = null;
  const parser = yargs([...argv])
    .scriptName('lynchet')
    .locale('en')
    .parserConfiguration({
      'dot-notation': false,
      'parse-numbers': false,
      'parse-positional-numbers': false,
      'camel-case-expansion': false,
      'boolean-negation': false,
      'duplicate-arguments-array': false,
    })
    .usage('$0 turns a designed landform into boards of cut foam, with full-size templates.')
    .command('make <job>', 'make boards, templates and lists from a job file', {}, () => {
      command = 'make';
    })
    .command(
      'look <file>',
      "tell a landform's size, heights and faults, or a job's problems; writes nothing but a picture asked for",
      {},
      () => {
        command = 'look';
      },
    )
    .command(
      'compare <job>',
      'build a job in other ways too and set them beside each other; writes nothing but a table asked for',
      {},
      () => {
        command = 'compare';
      },
    )
    .command('plugins', 'list the ways to do each stage, with their options', {}, () => {
      command = 'plugins';
    })
    .command('schema [what]', 'print the JSON Schema of a job or a plan, for an editor', {}, () => {
      command = 'schema';
    })
    .option('out', {
      type: 'string',
      describe: 'make: folder that the results go into',
      default: 'out',
      requiresArg: true,
    })
    .option('seconds', {
      type: 'string',
      describe: 'make: search no longer than this for fewer boards',
      requiresArg: true,
    })
    .option('picture', {
      type: 'string',
      describe: 'look: draw the landform from above into this SVG file',
      requiresArg: true,
    })
    .option('table', {
      type: 'string',
      describe: 'compare: write the table as a page for a browser into this HTML file',
      requiresArg: true,
    })
    .option('piece-price', {
      type: 'string',
      describe: 'compare: what a supplier takes for each piece that is cut there',
      requiresArg: true,
    })
    .option('plugin', { type: 'string', array: true, nargs: 1, describe: 'load a plugin from this module' })
    .option('quiet', { type: 'boolean', describe: 'say nothing but what is wrong', default: false })
    .option('json', { type: 'boolean', describe: 'say it as JSON', default: false })
    .example('$0 make moor/job.yaml', 'the whole job; results go to out/<job>/')
    .example('$0 make job.yaml --slice.layers.cut shy', 'any value of the job can be set by its path')
    .example('$0 look hill.stl --picture hill.svg', 'size, heights, faults, and a picture')
    .example('$0 compare job.yaml --table ways.html', 'solid, hollow, rings, ribs …: money, hours, wire, boards')
    .example('$0 schema job > job.schema.json', 'so that an editor completes the job file')
    .demandCommand(1, `Say what to do: ${listed('or')}.`)
    .version(false)
    .help()
    .fail((message, error) => {
      throw error && error.name !== 'YError' ? error : new WrongUsage(usageText(message ?? error.message));
    })
    .exitProcess(false);
  const parsed: Record<string, unknown> = await parser.parseAsync();
  if (parsed.help === true) return null;
  const words = parsed._ as string[];
  if (command === null) throw new WrongUsage(unknownCommand(String(words[0])));
  if (words.length > 1) throw new WrongUsage(`Too much on the line: ${words.slice(1).join(' ')}.`);
  return {
    command,
    file: String(parsed.job ?? parsed.file ?? ''),
    out: text(parsed, 'out') ?? 'out',
    seconds: positive(parsed, 'seconds'),
    piecePrice: positive(parsed, 'piece-price'),
    table: text(parsed, 'table'),
    picture: text(parsed, 'picture'),
    schema: schemaName(parsed.what),
    plugins: ((parsed.plugin as string[] | undefined) ?? []).map(String),
    quiet: parsed.quiet === true,
    json: parsed.json === true,
    overrides: overrides(parsed, command),
  };
}

function overrides(parsed: Record<string, unknown>, command: Command): Asked['overrides'] {
  const known = new Set(['_', '$0', 'job', 'file', 'what', ...FLAGS]);
  const found: { path: string; value: string }[] = [];
  for (const [key, value] of Object.entries(parsed)) {
    if (known.has(key)) continue;
    const keys = jobKeys();
    const isJobPath = keys.includes(key.split('.')[0]) && OF_JOB.includes(command);
    if (!isJobPath) {
      const guess = nearest(key, [...FLAGS, ...keys]);
      throw new WrongUsage(`There is no flag --${key}.${guess ? ` Did you mean --${guess}?` : ' See lynchet --help.'}`);
    }
    if (typeof value !== 'string') throw new WrongUsage(`--${key} wants a value.`);
    found.push({ path: key, value });
  }
  return found;
}

function text(parsed: Record<string, unknown>, flag: string): string | null {
  const value = parsed[flag];
  if (value === undefined) return null;
  if (typeof value !== 'string' || value === '') throw new WrongUsage(`--${flag} wants a value.`);
  return value;
}

function positive(parsed: Record<string, unknown>, flag: string): number | null {
  const value = text(parsed, flag);
  if (value === null) return null;
  const number = Number(value);
  if (!Number.isFinite(number) || number <= 0)
    throw new WrongUsage(`--${flag} wants a number above 0, not "${value}".`);
  return number;
}

function schemaName(what: unknown): 'job' | 'plan' {
  if (what === undefined || what === 'job') return 'job';
  if (what === 'plan') return 'plan';
  throw new WrongUsage(`There is a schema of a job and of a plan, not of "${String(what)}".`);
}

/** The parser's own complaints in the words of the rest. */
function usageText(message: string): string {
  const flags = /^Not enough arguments following: (.*)$/.exec(message)?.[1];
  if (flags !== undefined) return `--${flags.replaceAll(', ', ' and --')} wants a value.`;
  if (message.startsWith('Not enough non-option arguments')) return 'Say which file: lynchet make job.yaml.';
  return message;
}

function unknownCommand(word: string): string {
  const guess = nearest(word, [...COMMANDS]);
  return `There is no command "${word}"; there are ${listed('and')}.${guess ? ` Did you mean ${guess}?` : ''}`;
}

const listed = (last: 'and' | 'or'): string => `${COMMANDS.slice(0, -1).join(', ')} ${last} ${COMMANDS.at(-1)}`;
