import type { Kit } from '../../plugin.ts';

/** `scale`: 1 draws at true size, 10 draws everything at 1:10, for a maquette of card. Lettering keeps its heights. */
export const scaleOption = ({ z }: Kit) =>
  z
    .number()
    .min(1)
    .max(100)
    .default(1)
    .describe('1 for true size, 10 for 1:10: templates of a card maquette, in card as thin as the boards by as much');
