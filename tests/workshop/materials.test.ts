/** Densities of covers, against the published tables. */
import { expect, test } from 'vitest';
import { coverDensity } from '../../src/workshop/materials.ts';

test('sand, gravel and loam are those of the table', () => {
  // EngineeringToolbox, "Dirt and Mud – Densities", kg/m³ (figures as noted from the page).
  expect(coverDensity('dry sand')).toBe(1555);
  expect(coverDensity('wet sand')).toBe(1905);
  expect(coverDensity('gravel')).toBe(1680);
  expect(coverDensity('wet gravel')).toBe(2000);
  expect(coverDensity('topsoil')).toBe(1280);
});

test.each([
  ['soil', 12_000, 20_000],
  ['wet soil', 12_000, 20_000],
  ['set plaster', 12_000, 18_000],
  ['cement render', 19_000, 23_000],
  ['sand', 14_000, 19_000],
])('%s weighs what floors are reckoned for', (material, least, most) => {
  // EN 1991-1-1:2002, Annex A, N/m³: mortars A.1, sand A.2 and A.7; for soil the round figure of practice. From memory.
  const weight = (coverDensity(material) as number) * 9.81;
  expect(weight).toBeGreaterThan(least);
  expect(weight).toBeLessThan(most + 1500);
});

test('wet is never lighter than dry', () => {
  for (const material of ['sand', 'shingle', 'loam', 'clay', 'gypsum', 'mortar', 'vermiculite']) {
    expect(coverDensity(`wet ${material}`)).toBeGreaterThan(coverDensity(material) as number);
    expect(coverDensity(`damp ${material}`)).toBe(coverDensity(`wet ${material}`));
  }
});

test('capitals and what stands around the word do not matter', () => {
  expect(coverDensity('Washed SAND, 0/2 mm')).toBe(1555);
  expect(coverDensity('sand (wet)')).toBe(1905);
});

test('what is not in the table is not guessed, nor is a word in a word', () => {
  for (const material of ['felt', '', 'sandpaper', 'thousand leaves', 'wet', 'constructor']) {
    expect(coverDensity(material)).toBeNull();
  }
});
