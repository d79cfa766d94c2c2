import type { Reporter, SerializedError, TestModule } from "vitest/node";

/** Closes the run with one plain line that other programs can read. */
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandled: readonly SerializedError[]): void {
    let passed = 0;
    let failed = unhandled.length;
    for (const module of modules) {
      const tests = [...module.children.allTests()];
      passed += tests.filter((test) => test.result().state === "passed").length;
      const broken = tests.filter((test) => test.result().state === "failed").length;
      // A file that cannot even be loaded, or whose hooks fail, has no test that says so.
      failed += broken === 0 && !module.ok() ? 1 : broken;
    }
    process.stdout.write(`\n${passed} passed, ${failed} failed\n`);
  }
}
