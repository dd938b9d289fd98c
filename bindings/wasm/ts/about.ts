/** Texts about the package. */

import { core } from "./core.js";

/** Version of the package and of the model in it. */
export const version: string = core.version();

/** What everyone who works with a laser must know; show it where you show results. */
export const caution: string = core.caution();
