/** The usual cautions in plain words. They defer to local codes and licensed practice; they give no approval. */
export const CAUTIONS: readonly string[] = [
  'This plan shows shape and cutting. It does not prove that people can stand on it, that it meets fire rules, or that your equipment is safe. Check with the venue, the fire authority and a competent person; local codes and licensed practice go first.',
  'Foam carries shape, not people. Where people go, a deck by others is left room for.',
  'A hot wire burns skin at once and may snap and whip: eye protection, nobody reaches under a cut, isolate before changing the wire, never leave it on.',
  'Power only from a low-voltage, isolated, fused supply made for the job, with a switch in reach. Never from the mains, with or without a dimmer. Leave wiring and batteries to a qualified person.',
  'Cut only polystyrene, never urethane, PVC or unknown foam. Draw fumes away at the wire to outside; smell is no guide to dose.',
  'All foams burn, fire-retarded ones too, with dense smoke. Ask the fire authority before buying. No lamps, cables or fog in the voids.',
  'Sanding makes dust and beads: protect eyes and breath, collect at the source, keep out of drains.',
  'Large light pieces are sails: two people outdoors, ballast against wind. Wet cover weighs far more than foam; lift it accordingly.',
];
