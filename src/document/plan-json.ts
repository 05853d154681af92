import { type PlanFile, planFile } from '../model/files.ts';
import { definePlugin } from '../plugin.ts';

/** plan.json: the whole plan for other programs, in the form that model/plan-file.ts declares. Always written. */
export const planJson = definePlugin({
  api: 1,
  stage: 'document',
  name: 'plan-json',
  summary: 'the whole plan as data, for other programs; always written',
  options: ({ z }) => z.strictObject({}),
  run: (plan) => [{ path: 'plan.json', mediaType: 'application/json', body: lines(planFile(plan)) }],
});

/** JSON with a line for each layer, piece, board and finding, so that two plans can be compared line by line. */
function lines(plan: PlanFile): string {
  const fields = Object.entries(plan).map(([key, value]) => {
    const isList = Array.isArray(value) && value.length > 0;
    const text = isList ? `[\n${value.map((item) => JSON.stringify(item)).join(',\n')}\n]` : JSON.stringify(value);
    return `${JSON.stringify(key)}: ${text}`;
  });
  return `{\n${fields.join(',\n')}\n}\n`;
}
