import type { Reporter, TestModule } from 'vitest/node';

/** Ends a run with one plain line, `N passed, N failed` (and what was skipped), for people and for scripts. */
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandled: readonly unknown[]): void {
    const count = { passed: 0, failed: unhandled.length, skipped: 0 };
    for (const module of modules) {
      if (module.state() === 'failed' && ![...module.children.allTests()].some((test) => !test.ok())) count.failed += 1;
      for (const test of module.children.allTests()) {
        const state = test.result().state;
        if (state === 'passed') count.passed += 1;
        else if (state === 'failed') count.failed += 1;
        else count.skipped += 1;
      }
    }
    const skipped = count.skipped > 0 ? `, ${count.skipped} skipped` : '';
    // After the default reporter has printed its own summary.
    process.on('exit', () => console.log(`${count.passed} passed, ${count.failed} failed${skipped}`));
  }
}
