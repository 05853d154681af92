import { AGREED_BY, risksOf } from '../../workshop/risks.ts';
import { caution, heading, type WorkSheet, words } from './sheet.ts';

/** Room for what only those know who know the place. */
const OWN = ['_'.repeat(24), '_'.repeat(38), '_'.repeat(60)];

/** The dangers in plain words, what the crew does about each, and who agreed. */
export const RISK: WorkSheet = {
  name: 'risk-sheet',
  title: 'Risks',
  summary: 'the dangers of the work in plain words, what is done about each, and who agreed',
  blocks: (plan) => [
    caution(
      'This list is a start and no assessment: a competent person who knows the place completes it. Local law and codes go first; wiring, structure and fire belong to licensed people.',
    ),
    {
      kind: 'table',
      head: ['Danger', 'What can happen', 'What we do'],
      rows: risksOf(plan).map(({ danger, happens, we }) => [danger, happens, we]),
      ticks: true,
    },
    {
      kind: 'table',
      head: ['Danger of this place', 'What can happen', 'What we do'],
      rows: Array.from({ length: 4 }, () => OWN),
    },
    heading('Agreed'),
    {
      kind: 'table',
      head: ['Who', 'Name', 'Signed', 'Date'],
      rows: AGREED_BY.map((who) => [who, '____________________', '____________________', '____________']),
    },
    words(
      'Emergency number ________   nearest first aid ________   nearest cold water ________   meeting point ________',
    ),
  ],
};
