/** By which test each public model is checked along a second route that shares no code with it; its worked example (data/examples) is no such route. */
import type { SecondRoute } from "./second-route";
import { productRoutes } from "./second-routes-product";
import { signalRoutes } from "./second-routes-signal";

export const secondRoutes: Readonly<Record<string, SecondRoute>> = { ...signalRoutes, ...productRoutes };
