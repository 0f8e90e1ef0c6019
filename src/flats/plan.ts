import type { Swatch } from '../palette/types.ts';
import type { Mark } from './marks/table.ts';
import type { PlanSettings } from './settings.ts';

/**
 * A person's decisions as plain data, applied again to any revision of a drawing. The package holds
 * a JSON Schema of it, `underink/plan.schema.json`.
 */
export interface Plan {
  readonly version: 1;
  /** `[width, height]` of the drawing that the plan was made for, in pixels. */
  readonly size: readonly [number, number];
  /** Swatches to lay; `bare` is reserved. */
  readonly palette: readonly Swatch[];
  /** Marks act in order. */
  readonly marks: readonly Mark[];
  /** How the drawing is read and laid; an option given beside the plan wins. @default none */
  readonly settings?: PlanSettings | undefined;
}
