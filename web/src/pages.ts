import { corrections } from "./corrections";
import { dayNight } from "./day-night";
import { dropZone } from "./drop-zone";
import { figuresDraft } from "./figures-draft";
import { pair } from "./pair";
import { rotations } from "./rotations";
import { why } from "./why";

// Every page works without this script; it only saves reloads and draws the plots.
dayNight();
dropZone();
figuresDraft();
rotations();
why();
corrections();
pair();
