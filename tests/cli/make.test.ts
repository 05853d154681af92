/** The real program in an empty folder: exit codes, what it says and where, what it leaves behind. */
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { emptyFolder, ended, program, SAMPLES, start } from './program.ts';

const SMALL = `name: Small bank
source: { sketch: { size: [700, 500], spacing: 10, level: 5, features: [ { mound: { at: [300, 210], radius: 260, height: 90 } } ] } }
stock: { boards: [ { name: EPS 70, size: [600, 400], thickness: 25, price: 3.1 } ] }
nest: { boards: { effort: 2000 } }
`;
const folderWith = (text = SMALL) => {
  const cwd = emptyFolder();
  writeFileSync(join(cwd, 'job.yaml'), text);
  return cwd;
};
/** Everything in a folder and below, hidden files too. */
const all = (folder: string) => readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort();

test('a job leaves boards, pages, lists, plan and report, and says a summary in words', async () => {
  const cwd = folderWith();
  const { code, out, err } = await program(['make', 'job.yaml'], cwd);
  expect(err).toBe('');
  expect(code).toBeLessThan(2);
  const made = readdirSync(join(cwd, 'out/Small-bank'));
  for (const name of ['board-01.svg', 'pages.pdf', 'cut-list.csv', 'offcuts.json', 'plan.json', 'report.html'])
    expect(made).toContain(name);
  for (const word of [
    'layers',
    'boards',
    'impossible',
    'money',
    'foam',
    'paper',
    'findings',
    'report.html',
    'competent person',
  ]) {
    expect(`${out} impossible`).toContain(word);
  }
  expect(out).not.toContain('\u001b');
  expect(readdirSync(join(cwd, 'out'))).toEqual(['Small-bank']);
});

test('the plan can be made again from the job written in it', async () => {
  const cwd = folderWith();
  await program(['make', 'job.yaml', '--quiet'], cwd);
  const plan = JSON.parse(readFileSync(join(cwd, 'out/Small-bank/plan.json'), 'utf8'));
  expect(plan.lynchet).toBe(1);
  writeFileSync(join(cwd, 'again.json'), JSON.stringify(plan.job));
  const { code, out } = await program(['make', 'again.json', '--out', 'again', '--quiet'], cwd);
  expect([code, out]).toEqual([expect.any(Number), '']);
  const again = JSON.parse(readFileSync(join(cwd, 'again/Small-bank/plan.json'), 'utf8'));
  expect(again).toEqual(plan);
});

test('a flag sets any value of the job; a wrong one is named as the flag it is', async () => {
  const cwd = folderWith();
  const good = await program(['make', 'job.yaml', '--slice.layers.cut', 'shy', '--name', 'Other bank', '--json'], cwd);
  expect(JSON.parse(good.out).name).toBe('Other bank');
  const bad = await program(['make', 'job.yaml', '--slice.layers.cut', 'side'], cwd);
  expect(bad.code).toBe(3);
  expect(bad.err).toContain('--slice.layers.cut');
  expect(bad.err).toContain('proud');
});

test.each([
  [[], 2, 'Say what to do'],
  [['mke', 'job.yaml'], 2, 'Did you mean make?'],
  [['make'], 2, ''],
  [['make', 'job.yaml', '--quite'], 2, 'Did you mean --quiet?'],
  [['make', 'job.yaml', '--seconds', 'soon'], 2, '--seconds wants a number'],
  [['make', 'none.yaml'], 3, 'there is no such file'],
  [['look', 'none.stl'], 3, 'there is no such file'],
  [['look', 'job.doc'], 3, 'cannot be told from its name'],
  [['make', 'job.yaml', '--plugin', 'none.mjs'], 3, 'cannot be loaded'],
])('%j ends with %i', async (args, code, words) => {
  const cwd = folderWith();
  const { code: ends, err } = await program(args, cwd);
  expect(ends).toBe(code);
  expect(err).toContain(words);
  expect(err).not.toMatch(/\n\s+at /);
  expect(readdirSync(cwd)).toEqual(['job.yaml']);
});

test('every fault of a job is told at once, with line and column, and nothing is written', async () => {
  const cwd = folderWith(SMALL.replace('spacing', 'spacin').replace('thickness: 25', 'thickness: -25'));
  const { code, err } = await program(['make', 'job.yaml'], cwd);
  expect(code).toBe(3);
  expect(err.trim().split('\n').length).toBeGreaterThanOrEqual(2);
  expect(err).toMatch(/job\.yaml:2:\d+/);
  expect(err).toMatch(/job\.yaml:3:\d+/);
  expect(existsSync(join(cwd, 'out'))).toBe(false);
});

test('a result of Lynchet is replaced; anything else is left alone', async () => {
  const cwd = folderWith();
  await program(['make', 'job.yaml', '--quiet'], cwd);
  expect((await program(['make', 'job.yaml', '--quiet'], cwd)).code).toBeLessThan(2);
  mkdirSync(join(cwd, 'mine/Small-bank'), { recursive: true });
  writeFileSync(join(cwd, 'mine/Small-bank/letter.txt'), 'dear');
  const { code, err } = await program(['make', 'job.yaml', '--out', 'mine'], cwd);
  expect(code).toBe(3);
  expect(err).toContain('was not made by Lynchet');
  expect(all(join(cwd, 'mine'))).toEqual(['Small-bank', 'Small-bank/letter.txt']);
});

test('what a killed run left aside is put back by the next', async () => {
  const cwd = folderWith();
  await program(['make', 'job.yaml', '--quiet'], cwd);
  const plan = readFileSync(join(cwd, 'out/Small-bank/plan.json'), 'utf8');
  renameSync(join(cwd, 'out/Small-bank'), join(cwd, 'out/.Small-bank.old'));
  mkdirSync(join(cwd, 'out/.Small-bank.new-999999'));
  await program(['make', 'job.yaml', '--quiet'], cwd);
  expect(readFileSync(join(cwd, 'out/Small-bank/plan.json'), 'utf8')).toBe(plan);
  expect(readdirSync(join(cwd, 'out'))).toEqual(['Small-bank']);
});

test.each([30, 250, 500, 900])('killed after %i ms, out holds the old result or the new', async (ms) => {
  const cwd = folderWith();
  await program(['make', 'job.yaml', '--quiet'], cwd);
  const before = readFileSync(join(cwd, 'out/Small-bank/plan.json'), 'utf8');
  const child = start(['make', 'job.yaml', '--quiet', '--seed', '2'], cwd);
  setTimeout(() => child.kill('SIGKILL'), ms);
  await ended(child);
  const folders = readdirSync(join(cwd, 'out'));
  const whole = folders.includes('Small-bank') ? 'Small-bank' : '.Small-bank.old';
  const plan = readFileSync(join(cwd, 'out', whole, 'plan.json'), 'utf8');
  if (plan !== before) expect(JSON.parse(plan).job.seed).toBe(2);
  expect(existsSync(join(cwd, 'out', whole, 'report.html'))).toBe(true);
});

test('Ctrl-C ends it with 130 and nothing written', async () => {
  const cwd = emptyFolder();
  cpSync(join(SAMPLES, 'moor-bank'), cwd, { recursive: true });
  const child = start(['make', 'job.yaml'], cwd);
  setTimeout(() => child.kill('SIGINT'), 1200);
  const { code } = await ended(child);
  expect(code).toBe(130);
  expect(existsSync(join(cwd, 'out'))).toBe(false);
});

test('a plugin of the user is loaded from the command line, never from a job', async () => {
  const cwd = folderWith(`${SMALL}shape: [ { ramp: { rise: 60 } } ]\n`);
  const without = await program(['make', 'job.yaml'], cwd);
  expect(without.code).toBe(3);
  expect(without.err).toContain('There is no shape plugin "ramp"');
  expect(without.err).toContain('--plugin');
  const plugin = join(SAMPLES, 'plugins/ramp.mjs');
  expect((await program(['make', 'job.yaml', '--plugin', plugin, '--quiet'], cwd)).code).toBeLessThan(2);
  const list = await program(['plugins', '--plugin', plugin], cwd);
  expect(list.out).toMatch(/ramp +tilt the ground/);
  expect(list.out).toMatch(/rise +height gained/);
});

test('look tells size and heights, writes nothing, and draws when asked', async () => {
  const cwd = folderWith();
  const { code, out } = await program(['look', 'job.yaml'], cwd);
  expect(code).toBe(0);
  expect(out).toContain('700 mm × 500 mm');
  expect(readdirSync(cwd)).toEqual(['job.yaml']);
  await program(['look', 'job.yaml', '--picture', 'seen.svg'], cwd);
  expect(readFileSync(join(cwd, 'seen.svg'), 'utf8')).toMatch(/^(<\?xml[^>]*>\s*)?<svg/);
});

test('schema prints JSON Schema for job and plan', async () => {
  const cwd = emptyFolder();
  for (const what of ['job', 'plan']) {
    const { code, out } = await program(['schema', what], cwd);
    expect(code).toBe(0);
    expect(JSON.parse(out).$schema).toBe('https://json-schema.org/draft/2020-12/schema');
  }
});

test.each(['../../etc/passwd', 'a"b\'<script>alert(1)</script>', '🏔️ móor 丘', 'x'.repeat(300), '=1+1', 'CON'])(
  'the name %j reaches files and folders safely',
  async (name) => {
    const cwd = folderWith(SMALL.replace('Small bank', JSON.stringify(name)));
    const { code } = await program(['make', 'job.yaml', '--quiet'], cwd);
    expect(code).toBeLessThan(2);
    const folders = readdirSync(join(cwd, 'out'));
    expect(folders.length).toBe(1);
    expect(folders[0]).toMatch(/^[A-Za-z0-9-]{1,60}$/);
    expect(readdirSync(cwd).sort()).toEqual(['job.yaml', 'out']);
    expect(readFileSync(join(cwd, 'out', folders[0], 'report.html'), 'utf8')).not.toContain('<script>alert');
  },
);
