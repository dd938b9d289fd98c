/** The far-field divergence of a beam, as a full or a half angle by name. */

import { number } from "./number.js";
import type { Angle } from "./units.js";

/**
 * How fast a beam widens far from its waist. Make it with {@link fullAngle} or {@link halfAngle};
 * a bare angle is refused.
 */
export interface Divergence {
  /** **Full** angle of the 1/e² (D4σ) cone. */
  readonly fullAngle: Angle;
}

/** A divergence from its **full** angle. */
export function fullAngle(angle: Angle): Divergence {
  return { fullAngle: number(angle) as Angle };
}

/** A divergence from its **half** angle. */
export function halfAngle(angle: Angle): Divergence {
  return { fullAngle: (number(angle) * 2) as Angle };
}

/** The **full** angle of a divergence. */
export function asFullAngle(divergence: Divergence): Angle {
  return number(divergence?.fullAngle) as Angle;
}

/** The **half** angle of a divergence. */
export function asHalfAngle(divergence: Divergence): Angle {
  return (number(divergence?.fullAngle) / 2) as Angle;
}
