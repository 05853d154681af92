/** How a stack goes together, in the order of the work: common practice of layered foam, no source. */
export const SETTING_UP: readonly string[] = [
  'Lay the stack dry first, layer by layer from 1: names up, arrows to the front, labels of a joint facing each other, match marks meeting: one alone to one alone, a pair to a pair.',
  'Feel for the nicks: one toward the front, two on the right of who looks from the front, in line from layer to layer.',
  'When all lies as it should, draw two slanting lines down the dry stack, across every layer, one on the front and one on a side. Set up again, they run true only where each piece is back in its place and the right way up.',
  'Push each pin straight down through its layers. One that stays is sunk until its head is below what will be carved.',
  'Take the stack down and glue it up from layer 1, pins in their holes. Glue goes inside the placing line, kept back from outer edges where foam is carved; wire and knife do not pass it.',
  'Pins on open treads only hold the pieces in place: pull them when the glue has set, before carving.',
];
