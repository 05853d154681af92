import { CannotMake, refuse, type Where } from './findings.ts';
import { findingSchema, MADE, problemOf } from './made.ts';
import type { Context, Kit, Plugin, Reply, Task, Walk } from './plugin.ts';
import type { AnyPlugin } from './registry.ts';
import { isWalk } from './walk.ts';

/**
 * A plugin of others, watched: what it throws is told as a fault of the plugin and not of the program, and what it makes is
 * looked at before the next stage relies on it.
 * @param from the module it comes from, as the user named it.
 */
export function guarded(plugin: AnyPlugin, from: string): AnyPlugin {
  const { stage, name } = plugin as Plugin;
  const guard = guardOf(`The ${stage} plugin "${name}" of ${from}`, from);
  const tasks: Readonly<Record<string, Task>> = plugin.tasks ?? {};
  const checked = (value: unknown) => {
    const problem = problemOf(MADE[stage as Plugin['stage']], value);
    return problem === undefined ? value : guard.wrong(`makes what cannot be used: ${problem}`);
  };
  const isYield = (value: unknown): boolean =>
    typeof value === 'number' ||
    (Array.isArray((value as { lanes?: unknown } | null)?.lanes) &&
      (value as { lanes: readonly ({ task?: string } | null)[] }).lanes.every((lane) =>
        Object.hasOwn(tasks, lane?.task ?? ''),
      ));

  function* watched(work: Walk<unknown>): Walk<unknown> {
    for (let reply: Reply = { say: 'go', results: [] }; ; ) {
      const step = guard.attempt(() => work.next(reply));
      if (step.done) return step.value;
      if (!isYield(step.value)) guard.wrong('yields what is neither progress nor lanes of its own tasks');
      reply = yield step.value;
    }
  }
  function* watchedToEnd(work: Walk<unknown>): Walk<unknown> {
    return checked(yield* watched(work));
  }

  return {
    ...plugin,
    options(kit: Kit) {
      const schema = guard.attempt(() => plugin.options(kit));
      return typeof schema?.strict === 'function' ? schema : guard.wrong('has options that are no z.strictObject');
    },
    run(input: unknown, options: unknown, context: Context) {
      const tell: Context['tell'] = (finding) => {
        const problem = problemOf(findingSchema, finding);
        if (problem !== undefined) guard.wrong(`tells what is no finding: ${problem}`);
        context.tell(finding);
      };
      const work = guard.attempt(() => plugin.run(input, options, { ...context, tell }));
      if (isWalk(work)) return watchedToEnd(work);
      return work instanceof Promise ? work.then(checked, guard.failed) : checked(work);
    },
    tasks: Object.fromEntries(
      Object.entries(tasks).map(([key, task]) => [key, ((input) => watched(guard.attempt(() => task(input)))) as Task]),
    ),
  };
}

/** Run what a module of others brings; whatever it throws is refused, in the words that come before it. */
export function guardOf(called: string, from: string) {
  const wrong = (message: string, where: Where = {}): never =>
    refuse('plugin/failed', `${called} ${message}.`, FIX, where);
  const failed = (error: unknown): never => {
    if (error instanceof CannotMake) throw error;
    return wrong(`failed: ${thrownText(error)}`, placeOf(error, from));
  };
  const attempt = <T>(work: () => T): T => {
    try {
      return work();
    } catch (error) {
      return failed(error);
    }
  };
  return { wrong, failed, attempt };
}

const FIX = 'Mend it, or do without it.';

/** What was thrown, in a line: anything can be. */
export const thrownText = (error: unknown): string =>
  (error instanceof Error ? error.message : String(error)).split('\n')[0].replace(/\.$/, '') || 'no word of why';

/** Line and column in the module, where what was thrown says it came from there. */
function placeOf(error: unknown, from: string): Where {
  const file = from.split(/[\\/]/).at(-1) ?? from;
  const line = (error instanceof Error ? (error.stack ?? '') : '').split('\n').find((each) => each.includes(file));
  const found = line === undefined ? null : /:(\d+):(\d+)\)?$/.exec(line);
  return found ? { file: from, line: Number(found[1]), column: Number(found[2]) } : {};
}
