import { Composer, type Document, isAlias, isMap, isScalar, isSeq, Lexer, LineCounter, Parser } from 'yaml';
import { type Fault, refuse } from '../findings.ts';
import { MANGLED, YAML_WORDS } from './yaml-words.ts';

/** What is taken in: more is refused before memory or the stack is spent on it. */
const MOST_CHARACTERS = 2_000_000;
const MOST_DEPTH = 40;
/** Values that aliases may repeat, all told. A few nested aliases can otherwise stand for more values than fit anywhere. */
const MOST_REPEATED = 10_000;

/** A node of a YAML file, or nothing where a key has no value. */
export type Node = Document['contents'];

/** A YAML file as plain values, with its nodes for the places of faults. */
export interface YamlFile {
  /** Undefined when the file cannot be read as it was meant; then there are faults. */
  readonly value: unknown;
  readonly root: Node;
  /** Line and column, both from 1, of a character of the file. */
  at(offset: number): { line: number; column: number };
  /** The node an alias stands for; any other node is itself. */
  resolved(node: Node): Node;
  readonly faults: readonly Fault[];
}

/**
 * Read a YAML 1.2 file (core schema, keys are text) into plain values. Faults that leave the tree sound are collected;
 * what cannot be read at all, or would spend memory without bound, is refused.
 */
export function readYaml(text: string, file: string): YamlFile {
  if (text.length > MOST_CHARACTERS) {
    const message = `The file has ${text.length} characters; a job has at most ${MOST_CHARACTERS}.`;
    refuse('job/too-large', message, 'Keep heights in a file of their own and name it in the source.', { file });
  }
  const lines = new LineCounter();
  const at = (offset: number) => {
    const { line, col } = lines.linePos(offset);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  const faults: Fault[] = [];
  const fault = (code: string, message: string, fix: string, offset: number) =>
    faults.push({ code, message, fix, where: { file, ...at(offset) } });
  const stop = (code: string, message: string, fix: string, offset: number): never =>
    refuse(code, message, fix, { file, ...at(offset) });

  const documents = [
    ...new Composer({ schema: 'core', stringKeys: true, resolveKnownTags: false, logLevel: 'silent' }).compose(
      tokensOf(text, lines, (offset) =>
        stop('job/too-deep', `This is nested more than ${MOST_DEPTH} deep.`, 'A job needs no more than ten.', offset),
      ),
      true,
      text.length,
    ),
  ];
  const [doc] = documents;
  if (documents.length > 1) {
    fault('job/yaml', 'A second document starts here.', 'Keep one job in a file.', documents[1].range[0]);
  }
  for (const { code, pos, message } of [...doc.errors, ...doc.warnings]) {
    const [what, wayOut] = YAML_WORDS[code] ?? [message, 'See yaml.org for the form.'];
    fault('job/yaml', what, wayOut, pos[0]);
  }

  const anchors = new Map<string, Node>();
  const aliases = new Map<unknown, Node>();
  let repeated = 0;
  let isMangled = doc.errors.some(({ code }) => MANGLED.has(code));

  function plain(node: Node, depth: number, from: number | undefined): unknown {
    if (node === null || node === undefined) return null;
    const offset = from ?? node.range?.[0] ?? 0;
    if (depth > MOST_DEPTH) stop('job/too-deep', 'An alias stands inside itself.', 'Write the values out.', offset);
    if (from !== undefined && ++repeated > MOST_REPEATED) {
      const message = `Aliases repeat more than ${MOST_REPEATED} values.`;
      stop('job/too-large', message, 'Write the values out.', offset);
    }
    if (isAlias(node)) {
      const target = anchors.get(node.source);
      if (target === undefined) {
        isMangled = true;
        fault('job/yaml', `No anchor &${node.source} stands before this.`, 'Name one that does.', offset);
        return null;
      }
      aliases.set(node, target);
      return plain(target, depth + 1, offset);
    }
    if ('anchor' in node && node.anchor) anchors.set(node.anchor, node);
    if (isSeq(node)) return node.items.map((item) => plain(item as Node, depth + 1, from));
    if (!isMap(node)) return isScalar(node) ? (Object.is(node.value, -0) ? 0 : node.value) : null;
    const result: Record<string, unknown> = {};
    for (const { key, value } of node.items) {
      const name = isScalar(key) ? String(key.value) : undefined;
      if (name === '__proto__') {
        fault('job/unknown-key', '"__proto__" is not a key.', 'Take it out.', (key as Node)?.range?.[0] ?? offset);
      } else if (name !== undefined) result[name] = plain(value as Node, depth + 1, from);
    }
    return result;
  }

  const root = doc.contents;
  const value = isMangled ? undefined : plain(root, 0, undefined);
  return { value: isMangled ? undefined : value, root, at, resolved: (node) => aliases.get(node) ?? node, faults };
}

/** The tokens of the file. Stops at the first that nests too deep: what comes after works by recursion. */
function* tokensOf(text: string, lines: LineCounter, tooDeep: (offset: number) => void) {
  const parser = new Parser(lines.addNewLine);
  lines.addNewLine(0);
  for (const lexeme of new Lexer().lex(text)) {
    yield* parser.next(lexeme);
    if (parser.stack.length <= MOST_DEPTH) continue;
    if (parser.stack.filter((token) => 'items' in token).length > MOST_DEPTH) tooDeep(parser.offset);
  }
  yield* parser.end();
}
