import "./cards.css";
import { approach } from "./approach";
import { corrections } from "./corrections";
import { dayNight } from "./day-night";
import { dateWords } from "./date-words";
import { days } from "./days";
import { drafts } from "./drafts";
import { dropZone } from "./drop-zone";
import { pair } from "./pair";
import { jobForm } from "./job-form";
import { plan } from "./plan";
import { rotations } from "./rotations";
import { scrollSign } from "./scroll-sign";
import { why } from "./why";

// Every page works without this script; it only saves reloads and draws the plots.
dayNight();
dateWords();
scrollSign();
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
