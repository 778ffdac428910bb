/** A comparison as test results: a suite a plan, a case for each change, rule and alteration of evidence. */
import { type Case, suite, suites } from '../junit.ts';
import type { Compared } from './compared.ts';
import { toldOf } from './told.ts';

export function junit(compared: Compared): string {
  return suites(
    compared.plans.map((plan) =>
      suite(
        plan.comparison.after.title ?? plan.comparison.before.title ?? plan.path,
        toldOf({ ...compared, plans: [plan] }).map(({ finding, path, range }): Case => {
          const { name, severity, message } = finding;
          return {
            name: `${finding.about ?? name} at ${path}:${range.start.line + 1}`,
            kind: name,
            failure: severity === 'error' ? message : undefined,
            skipped: false,
            said: severity === 'error' ? undefined : message,
          };
        }),
      ),
    ),
  );
}
