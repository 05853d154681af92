import { optionSchemas, type Registry, STAGES } from '../src/index.ts';

interface Schema {
  readonly description?: string;
  readonly default?: unknown;
  readonly enum?: readonly unknown[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
}

/** The ways to do each stage with their options, from the one place where options are declared. */
export function pluginList(registry: Registry): { text: string; data: unknown } {
  const lines: string[] = [];
  const schemas = optionSchemas(registry) as Readonly<Record<string, Schema>>;
  const data = STAGES.map((stage) => ({
    stage,
    plugins: registry.of(stage).map(({ name, summary }) => ({ name, summary, options: schemas[`${stage}/${name}`] })),
  }));
  for (const { stage, plugins } of data) {
    lines.push(stage);
    for (const { name, summary, options } of plugins) {
      lines.push(`  ${name.padEnd(14)} ${summary}`);
      for (const [option, schema] of Object.entries(options.properties ?? {})) {
        lines.push(`      ${option.padEnd(14)} ${optionText(schema, options.required?.includes(option) ?? false)}`);
      }
    }
  }
  return { text: lines.join('\n'), data };
}

function optionText({ description, enum: words, default: fallback }: Schema, required: boolean): string {
  const notes = [description ?? ''];
  if (words) notes.push(`(${words.join(', ')})`);
  if (fallback !== undefined) notes.push(`[${JSON.stringify(fallback)}]`);
  else if (required) notes.push('[must be said]');
  return notes.filter((note) => note !== '').join(' ');
}
