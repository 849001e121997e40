/** The entry of the panel's page, and of the tabs that are pages of their own. */
import { render } from "preact";
import "./panel.css";
import "./drawings.css";
import "./goggles.css";
import "./numbers.css";
import "./motors.css";
import "./against.css";
import "./signal.css";
import "./switches.css";
import "./page.css";
import "./facts.css";
import "./bench.css";
import "./review.css";
import "./fleet.css";
import { App } from "./app.tsx";
import { CompareApp } from "./compare-app.tsx";
import { FleetApp } from "./fleet-app.tsx";
import { FleetChangeApp } from "./fleet-change-app.tsx";
import { PageApp } from "./page-app.tsx";
import { ReviewApp } from "./review-app.tsx";
import { showOnlyVisible } from "./visible.ts";

// One script for all: a tab is the same page with another app in it.
const APPS: Readonly<Record<string, typeof App>> = {
  page: PageApp,
  comparison: CompareApp,
  review: ReviewApp,
  fleet: FleetApp,
  "fleet-change": FleetChangeApp,
};
const root = document.getElementById("panel");
const Chosen = APPS[root?.dataset.place ?? ""] ?? App;
showOnlyVisible();
if (root) render(<Chosen />, root);
