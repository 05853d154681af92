import { z } from 'zod';
import type { Kit } from '../plugin.ts';
import type { AnyPlugin, Registry } from '../registry.ts';
import type { StageName } from '../stages.ts';
import { BEST, bareNames } from './best.ts';
import { coreSchema, STEP_KEYS } from './core.ts';
import { makeKit } from './kit.ts';

/** JSON Schema, draft 2020-12. */
export type JsonSchema = Readonly<Record<string, unknown>>;

/** A kit whose options that hold a source are those of the registry's sources. */
function kitFor(registry: Registry): Kit {
  const kit = makeKit('mm');
  // A source within a source is never read.
  const inner: Kit = { ...kit, source: () => z.never() };
  return { ...kit, source: () => stepSchema(registry, 'source', inner) as ReturnType<Kit['source']> };
}

/** The schema of a job file with the plugins at hand: for editors, which then know every key and say what it means. */
export function jobSchema(registry: Registry): JsonSchema {
  const kit = kitFor(registry);
  const steps: Record<string, z.ZodType> = {};
  for (const [key, { stage, isList, mayBeBest, otherwise }] of Object.entries(STEP_KEYS)) {
    const { description } = coreSchema(kit).shape[key as keyof typeof STEP_KEYS];
    const step = stepSchema(registry, stage, kit, mayBeBest);
    const form: z.ZodType = isList ? z.array(step) : step;
    steps[key] = (otherwise === undefined ? form : form.prefault(otherwise)).describe(description ?? '');
  }
  return {
    title: 'Lynchet job',
    description: 'A plain number is a length in the unit of the job; 50 mm, 2 in, 8 ft, 1.2 m work anywhere.',
    ...asJson(coreSchema(kit).extend(steps)),
  };
}

/** The first words of every path into a job. */
export const jobKeys = (): string[] => Object.keys(coreSchema(makeKit('mm')).shape);

/** The schemas of every plugin's options, by stage and name: `slice/layers`. */
export function optionSchemas(registry: Registry): Readonly<Record<string, JsonSchema>> {
  const kit = kitFor(registry);
  return Object.fromEntries(registry.plugins.map((plugin) => [keyOf(plugin), asJson(plugin.options(kit).strict())]));
}

const keyOf = ({ stage, name }: AnyPlugin) => `${stage}/${name}`;

/** One plugin: `{ name: options }`, or its bare name when none of its options must be said; `best` and its list where it may choose. */
function stepSchema(registry: Registry, stage: StageName, kit: Kit, mayBeBest = false): z.ZodType {
  const plugins = registry.of(stage);
  const forms: z.ZodType[] = plugins.map((plugin) => {
    const options = plugin.options(kit).strict();
    const inner = options.safeParse({}).success ? options.nullable() : options;
    return z.strictObject({ [plugin.name]: inner }).describe(plugin.summary);
  });
  const bare = bareNames(plugins, kit);
  if (bare.length > 0) forms.push(z.enum(bare).describe('a plugin with all its options left as they are'));
  if (forms.length === 0) return z.never();
  const one = z.xor(forms);
  if (!mayBeBest) return one;
  const ways = z.array(one).min(2).nullable().describe('the ways to choose from; not said, all there are');
  return z.xor([
    ...forms,
    z.strictObject({ [BEST]: ways }).describe('tries several ways and takes the cheapest that passes the checks'),
    z.literal(BEST).describe('tries every way and takes the cheapest that passes the checks'),
  ]);
}

// Lengths are turned into millimetres on reading: what is described is what is written.
const asJson = (schema: z.ZodType): JsonSchema =>
  z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }) as JsonSchema;
