// A plugin of your own, loaded from the command line only:
//   lynchet make job.yaml --plugin samples/plugins/ramp.mjs
// It adds a shaper: `shape: [ ramp: { rise: 300 } ]` tilts the ground up towards the north.
export default () => ({
  api: 1,
  stage: 'shape',
  name: 'ramp',
  summary: 'tilt the ground up towards the north',
  options: ({ z, length }) =>
    z.strictObject({
      rise: length({ least: 0 }).describe('height gained from the south edge to the north edge'),
    }),
  run(landform, { rise }, { tell }) {
    if (landform.kind !== 'heightfield') {
      const message = 'A ramp tilts posts; this landform is a solid.';
      tell({ level: 'watch', code: 'shape/ramp', message, fix: 'Leave the ramp out.', where: {} });
      return landform;
    }
    const { columns, rows } = landform;
    const heightsMm = landform.heightsMm.map((height, i) => height + (rise * Math.floor(i / columns)) / (rows - 1));
    return { ...landform, heightsMm };
  },
});
