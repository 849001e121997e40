/** The entry of the panel's page, and of the page of names. */
import { render } from "preact";
import "./panel.css";
import "./drawings.css";
import "./goggles.css";
import "./numbers.css";
import "./signal.css";
import "./switches.css";
import "./page.css";
import { App } from "./app.tsx";
import { PageApp } from "./page-app.tsx";

// One script for both: the tab of names is the same page with another app in it.
const root = document.getElementById("panel");
if (root) render(root.dataset.place === "page" ? <PageApp /> : <App />, root);
