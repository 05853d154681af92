import { expect, test } from 'vitest';
import { inspect } from '../../src/checks/inspect.ts';
import { told } from '../../src/checks/told.ts';
import { smallPlan } from '../help/small-plan.ts';

test('of many of a kind the worst three are told, the last with the others’ names, each once', () => {
  const names = ['3C', '1A', '2D', '7A', '7A', '9C'];
  const found = told(
    names,
    (name) => ({ level: 'watch', code: 'checks/test', message: `${name} is odd.`, fix: '', where: { piece: name } }),
    (name) => name,
  );
  expect(found.map(({ message }) => message)).toEqual(['3C is odd.', '1A is odd.', '2D is odd. And 2 more: 7A, 9C.']);
});

test('findings of checks come after those that there were, and point into the plan', () => {
  const before = { level: 'note', code: 'slice/test', message: '', fix: '', where: {} } as const;
  const { findings } = inspect(smallPlan({ findings: [before] }));
  expect(findings[0]).toBe(before);
  const pieces = new Set(smallPlan().pieces.map(({ name }) => name));
  for (const { code, where } of findings.slice(1)) {
    expect(code).toMatch(/^checks\//);
    if (where.piece !== undefined) expect(pieces).toContain(where.piece);
  }
});

test('an upright stack is not asked what only lying layers answer', () => {
  const plan = smallPlan({ stack: { kind: 'upright', layers: [] } });
  const codes = inspect(plan).findings.map(({ code }) => code);
  for (const code of ['checks/not-closed', 'checks/tips', 'checks/treads']) expect(codes).not.toContain(code);
});
