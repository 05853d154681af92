/** How the program ends. The numbers are part of its interface. */
export const EXIT = { made: 0, madeWithStop: 1, wrongUsage: 2, cannotMake: 3, bug: 70, abandoned: 130 } as const;
