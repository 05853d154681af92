/** The doorway of the packing engine; what it is given and gives stands in problem.ts. */
export { type Improved, type ImproveInput, improve } from './improve.ts';
export { preview } from './preview.ts';
export * from './problem.ts';
export { compareRanks, rankOf } from './rank.ts';
export { type SearchOptions, searchBoards } from './search.ts';
export { prepareShape, type ShapeOptions } from './shape.ts';
export { type Shortened, type ShortenInput, type Strip, type StripProblem, shorten, stripOf } from './strip.ts';
