import "./cards.css";
import { approach } from "./approach";
import { corrections } from "./corrections";
import { dayNight } from "./day-night";
import { days } from "./days";
import { drafts } from "./drafts";
import { dropZone } from "./drop-zone";
import { pair } from "./pair";
import { jobForm } from "./job-form";
import { plan } from "./plan";
import { rotations } from "./rotations";
import { why } from "./why";

// Every page works without this script; it only saves reloads and draws the plots.
dayNight();
days();
drafts();
dropZone();
rotations();
why();
corrections();
pair();
jobForm();
plan();
approach();
