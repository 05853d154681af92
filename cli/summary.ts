import { styleText } from 'node:util';
import { type Fault, type Finding, faultText, timeText } from '../src/index.ts';
import type { Summary } from './messages.ts';
import { plain } from './trouble.ts';

const MOST_FINDINGS = 12;
const LEVELS = ['stop', 'watch', 'note'] as const;
const COLOURS = { stop: 'red', watch: 'yellow', note: 'dim' } as const;

/** What a builder wants to know when the work is done. */
export function summaryLines(summary: Summary, folder: string, files: readonly string[]): string[] {
  const { name, quantities: q, bound, cover, pages, tapingMinutes, findings } = summary;
  const owned = q.boards - q.boardsBought;
  const least =
    bound.boards === q.boardsBought
      ? `proven least, by ${bound.why}`
      : `fewer than ${bound.boards} is impossible: ${bound.why}`;
  const rows: [string, string][] = [
    ['boards', `${q.boardsBought} to buy (${least})${owned > 0 ? `, and ${owned} kept offcuts` : ''}`],
    ['money', q.price === null ? 'not worked out: a price is missing' : `${q.price.toFixed(2)} for boards`],
    ['foam', `${q.foamVolumeM3.toFixed(2)} m³, ${q.foamMassKg.toFixed(1)} kg in ${q.pieces} pieces`],
    ['cover', coverText(summary)],
    ['cutting', `${q.cutLengthM.toFixed(0)} m, ${q.joints} joints, ${q.pins} pins`],
    ['paper', pages === 0 ? 'none' : `${pages} pages, about ${timeText(tapingMinutes)} of trimming and taping`],
    [
      'findings',
      LEVELS.map((level) => `${findings.filter((each) => each.level === level).length} ${level}`).join(', '),
    ],
  ];
  const look = files.includes('report.html') ? `${folder}/report.html` : folder;
  return [
    styleText(
      'bold',
      `${plain(name)}: ${q.layers} ${q.coveringM2 === null ? 'layers' : 'ribs'}, ${q.pieces} pieces, ${q.boards} boards`,
      {
        stream: process.stdout,
      },
    ),
    ...rows
      .filter(([label]) => label !== 'cover' || cover !== null)
      .map(([label, text]) => `  ${label.padEnd(9)} ${text}`),
    ...findingLines(findings),
    `  ${'look at'.padEnd(9)} ${look}`,
    'This plan shows shape and cutting. It does not prove that people can stand on it, that it meets fire rules, or that',
    'your equipment is safe. Check with the venue, the fire authority and a competent person.',
  ];
}

/** Findings a line each, the gravest first; the rest is counted. */
export function findingLines(findings: readonly Finding[], stream: NodeJS.WriteStream = process.stdout): string[] {
  const sorted = LEVELS.flatMap((level) => findings.filter((each) => each.level === level));
  const lines = sorted.slice(0, MOST_FINDINGS).map((finding) => {
    const level = styleText(COLOURS[finding.level], finding.level.padEnd(5), { stream });
    return `    ${level} ${plain(faultText(finding))}`;
  });
  const more = sorted.length - lines.length;
  return more > 0 ? [...lines, `    … and ${more} more, in the report`] : lines;
}

/** Why nothing was made, a fault a line; then what of weight was told before, which is often the reason. */
export function faultLines(faults: readonly Fault[], told: readonly Finding[]): string[] {
  const lines = [...new Set(faults.map((fault) => plain(faultText(fault))))];
  const before = told.filter(({ level }) => level !== 'note');
  return before.length === 0 ? lines : [...lines, 'Told before that:', ...findingLines(before, process.stderr)];
}

function coverText({ quantities: q, cover }: Summary): string {
  const volume = (q.coverVolumeM3 ?? 0) + q.stepFillM3;
  const weight = q.coverMassKg === null ? 'weight not worked out' : `${q.coverMassKg.toFixed(0)} kg`;
  return `${volume.toFixed(volume < 0.1 ? 4 : 2)} m³ of ${plain(cover ?? '')}, ${weight}`;
}
