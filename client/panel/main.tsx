/** The entry of the panel's page. */
import { render } from "preact";
import "./panel.css";
import "./drawings.css";
import "./goggles.css";
import "./numbers.css";
import "./signal.css";
import "./switches.css";
import { App } from "./app.tsx";

const root = document.getElementById("panel");
if (root) render(<App />, root);
