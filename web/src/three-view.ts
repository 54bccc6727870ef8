import {
  AmbientLight, BoxGeometry, BufferAttribute, BufferGeometry, CatmullRomCurve3, Color, ConeGeometry, CylinderGeometry, DirectionalLight, DoubleSide, Fog, GridHelper, Group, Line, LineBasicMaterial, LineSegments,
  Mesh, MeshLambertMaterial, OctahedronGeometry, PerspectiveCamera, PlaneGeometry, RingGeometry, Scene, SphereGeometry, TubeGeometry, Vector3, WebGLRenderer, type Material, type Object3D,
} from "three";
import { eastNorth, type ApproachPath } from "./approach-path";

/** A view in space that can be drawn again, turned, and given another place or path. */
export interface View {
  show(path: ApproachPath, sample: number): void;
  turn(how: string): void;
  /** Takes the colours of the page again. */
  renew(): void;
}

// Deep enough that the sheet never shows through the squares drawn on it, however far away.
const groundDropM = 0.6;

/** Draws into a box: x east, y up, z south; metres. The camera stays near the aircraft and follows it. */
export function openView(box: HTMLElement): View {
  const renderer = new WebGLRenderer({ antialias: true });
  const canvas = renderer.domElement;
  canvas.setAttribute("aria-hidden", "true");
  box.replaceChildren(canvas);
  const scene = new Scene();
  const camera = new PerspectiveCamera(42, 1, 1, 4000);
  let path: ApproachPath | undefined;
  let sample = 0;
  let still = new Group();
  let moving: Moving | undefined;
  // Seen from behind and to the right of the aircraft, a little above.
  let around = 0.9;
  let above = 0.32;
  let away = 2.1;
  let asked = false;

  const place = (along: number, right: number, up: number) => {
    const [east, north] = eastNorth(path!, along, right);
    return new Vector3(east, up, -north);
  };

  const draw = () => {
    asked = false;
    if (!path || !moving) return;
    const i = Math.min(sample, path.timeS.length - 1);
    const hook = place(path.hookAlongM[i]!, path.hookRightM[i]!, path.hookUpM[i]!);
    const load = place(path.loadAlongM[i]!, path.loadRightM[i]!, path.loadUpM[i]! + path.loadHeightM / 2);
    moving.set(hook, load, path.courseDeg);
    const length = Math.max(10, hook.distanceTo(load));
    const middle = hook.clone().lerp(load, 0.5);
    const bearing = (path.courseDeg * Math.PI) / 180 + Math.PI - around;
    const flat = away * length * Math.cos(above);
    camera.position.set(middle.x + flat * Math.sin(bearing), Math.max(1.5, middle.y + away * length * Math.sin(above)), middle.z - flat * Math.cos(bearing));
    camera.lookAt(middle);
    renderer.render(scene, camera);
    box.dataset["triangles"] = String(renderer.info.render.triangles);
    box.dataset["sample"] = String(i);
  };
  const later = () => {
    if (asked) return;
    asked = true;
    requestAnimationFrame(draw);
  };

  const build = () => {
    if (!path) return;
    dispose(still);
    scene.remove(still);
    if (moving) { dispose(moving.group); scene.remove(moving.group); }
    const look = colours();
    scene.background = new Color(look.sky);
    scene.fog = new Fog(look.sky, 120, 900);
    still = stillThings(path, place, look);
    moving = new Moving(path, look);
    scene.add(still, moving.group);
    // What is drawn as ground: triangles of the elevation grid, or the level sheet.
    const grid = still.getObjectByName("ground grid");
    box.dataset["ground"] = grid instanceof Mesh ? String(((grid.geometry as BufferGeometry).index?.count ?? 0) / 3) : "level";
  };

  const light = new DirectionalLight(0xffffff, 2);
  light.position.set(-300, 600, 200);
  scene.add(new AmbientLight(0xffffff, 1.6), light);

  const size = () => {
    const width = Math.max(200, box.clientWidth);
    const height = Math.max(220, Math.min(520, Math.round(width * 0.6)));
    renderer.setPixelRatio(Math.min(2, devicePixelRatio));
    renderer.setSize(width, height);
    camera.aspect = width / height;
    camera.updateProjectionMatrix();
    later();
  };
  new ResizeObserver(size).observe(box);
  size();

  const turn = (how: string) => {
    const step = 0.2;
    if (how === "left") around -= step;
    else if (how === "right") around += step;
    else if (how === "up") above = Math.min(1.5, above + step);
    else if (how === "down") above = Math.max(-0.1, above - step);
    else if (how === "near") away = Math.max(0.7, away / 1.25);
    else if (how === "far") away = Math.min(25, away * 1.25);
    later();
  };
  const keys: Record<string, string> = { ArrowLeft: "left", ArrowRight: "right", ArrowUp: "up", ArrowDown: "down", "+": "near", "=": "near", "-": "far" };
  box.addEventListener("keydown", (e) => {
    const how = keys[e.key];
    if (!how) return;
    e.preventDefault();
    turn(how);
  });
  box.addEventListener("pointerdown", (e) => box.setPointerCapture(e.pointerId));
  box.addEventListener("pointermove", (e) => {
    if (!box.hasPointerCapture(e.pointerId)) return;
    around += e.movementX * 0.008;
    // A finger that moves up or down scrolls the page; a mouse tilts the view.
    if (e.pointerType === "mouse") above = Math.min(1.5, Math.max(-0.1, above + e.movementY * 0.006));
    later();
  });

  return {
    show(next, at) {
      sample = at;
      if (next !== path) { path = next; build(); }
      later();
    },
    turn,
    renew() { build(); later(); },
  };
}

interface Look { sky: string; ground: string; rule: string; ink: string; soft: string; accent: string; warn: string; earth: string }

function colours(): Look {
  const style = getComputedStyle(document.documentElement);
  const of = (name: string) => style.getPropertyValue(name).trim();
  return { sky: of("--sheet"), ground: of("--tint"), rule: of("--rule"), ink: of("--ink"), soft: of("--soft"), accent: of("--curve-0"), warn: of("--curve-1"), earth: of("--earth") || of("--strong-rule") };
}

/** Aircraft, line and load. */
class Moving {
  readonly group = new Group();
  private readonly aircraft = new Group();
  private readonly line: Mesh;
  private readonly load: Mesh;

  constructor(path: ApproachPath, look: Look) {
    const body = new Mesh(new SphereGeometry(1, 20, 12), flat(look.soft));
    const radius = path.rotorRadiusM;
    body.scale.set(radius * 0.2, radius * 0.22, radius * 0.45);
    body.position.y = radius * 0.2;
    const tail = new Mesh(new CylinderGeometry(radius * 0.05, radius * 0.03, radius, 8), flat(look.soft));
    tail.rotation.x = Math.PI / 2;
    tail.position.set(0, radius * 0.28, radius * 0.85);
    const disc = new Mesh(new RingGeometry(0.1, radius, 40), new MeshLambertMaterial({ color: look.ink, transparent: true, opacity: 0.28, side: DoubleSide, depthWrite: false }));
    disc.rotation.x = -Math.PI / 2;
    disc.position.y = radius * 0.5;
    const mast = new Mesh(new CylinderGeometry(0.12, 0.12, radius * 0.2, 6), flat(look.ink));
    mast.position.y = radius * 0.42;
    this.aircraft.add(body, tail, disc, mast);
    this.line = new Mesh(new CylinderGeometry(0.12, 0.12, 1, 6), flat(look.ink));
    const side = Math.max(0.8, path.loadHeightM);
    this.load = new Mesh(new BoxGeometry(side, Math.max(0.5, path.loadHeightM), side), flat(look.warn));
    this.group.add(this.aircraft, this.line, this.load);
  }

  set(hook: Vector3, load: Vector3, courseDeg: number): void {
    this.aircraft.position.copy(hook);
    this.aircraft.rotation.y = (-courseDeg * Math.PI) / 180;
    this.load.position.copy(load);
    this.load.rotation.y = this.aircraft.rotation.y;
    const along = hook.clone().sub(load);
    this.line.position.copy(load).addScaledVector(along, 0.5);
    this.line.scale.y = along.length();
    this.line.quaternion.setFromUnitVectors(new Vector3(0, 1, 0), along.normalize());
  }
}

/** Ground, spot, paths, marks, obstacles, wires and people. */
function stillThings(path: ApproachPath, place: (along: number, right: number, up: number) => Vector3, look: Look): Group {
  const group = new Group();
  group.add(...(path.ground ? terrain(path.ground, look) : plane(path, look)), ...spot(look));
  const points = (along: number[], right: number[], up: number[]) => along.map((a, i) => place(a, right[i]!, up[i]!)).filter((_, i) => i % 3 === 0 || i === along.length - 1);
  group.add(tube(points(path.hookAlongM, path.hookRightM, path.hookUpM), 0.2, look.accent));
  dotted(group, points(path.loadAlongM, path.loadRightM, path.loadUpM), look.warn);
  for (const mark of path.marks) {
    const sign = new Mesh(mark.name === "power in" ? new ConeGeometry(1.1, 1.9, 4) : mark.name === "reject" ? new SphereGeometry(1, 14, 10) : new OctahedronGeometry(1), flat(mark.name === "reject" ? look.warn : look.ink));
    sign.position.copy(place(-mark.distanceM, 0, mark.hookUpM));
    group.add(sign);
  }
  for (const o of path.obstacles) {
    const height = Math.max(1, o.topM - o.at[2]);
    const tree = new Mesh(new ConeGeometry(Math.max(1.2, height * 0.16), height, 10), flat(look.earth));
    tree.position.set(o.at[0], o.at[2] + height / 2, -o.at[1]);
    group.add(tree);
  }
  for (const w of path.wires) {
    const up = w.topM ?? 30;
    group.add(new Line(new BufferGeometry().setFromPoints([new Vector3(w.from[0], up, -w.from[1]), new Vector3(w.to[0], up, -w.to[1])]), new LineBasicMaterial({ color: look.warn })));
  }
  for (const p of path.people) {
    const body = new Mesh(new CylinderGeometry(0.35, 0.35, 1.4, 8), flat(look.ink));
    body.position.set(p.at[0], p.at[2] + 0.7, -p.at[1]);
    const head = new Mesh(new SphereGeometry(0.3, 10, 8), flat(look.ink));
    head.position.set(p.at[0], p.at[2] + 1.7, -p.at[1]);
    group.add(body, head);
  }
  return group;
}

/** Level with the spot: squares of 10 m. */
function plane(path: ApproachPath, look: Look): Object3D[] {
  const side = Math.ceil((2.4 * path.startM) / 20) * 20;
  const sheet = new Mesh(new PlaneGeometry(side, side), flat(look.ground));
  sheet.rotation.x = -Math.PI / 2;
  sheet.position.y = -groundDropM;
  return [sheet, new GridHelper(side, side / 10, look.earth, look.rule)];
}

function terrain(ground: NonNullable<ApproachPath["ground"]>, look: Look): Object3D[] {
  const across = 2 * ground.half + 1;
  const places = new Float32Array(across * across * 3);
  for (let row = 0; row < across; row++)
    for (let column = 0; column < across; column++) {
      const at = row * across + column;
      places.set([(column - ground.half) * ground.stepM, ground.upM[at] ?? 0, -(row - ground.half) * ground.stepM], at * 3);
    }
  const corners: number[] = [];
  for (let row = 0; row + 1 < across; row++)
    for (let column = 0; column + 1 < across; column++) {
      const a = row * across + column, b = a + 1, c = a + across, d = c + 1;
      // Where the grid does not know the ground, none is drawn.
      if ([a, b, c, d].some((i) => ground.upM[i] === null)) continue;
      corners.push(a, b, c, b, d, c);
    }
  const shape = new BufferGeometry();
  shape.setAttribute("position", new BufferAttribute(places, 3));
  shape.setIndex(corners);
  shape.computeVertexNormals();
  const material = flat(look.ground);
  material.side = DoubleSide;
  const made = new Mesh(shape, material);
  made.name = "ground grid";
  // The squares of the grid: else slopes can't be seen on an even colour.
  const edges: number[] = [];
  for (let k = 0; k + 2 < corners.length; k += 6) edges.push(corners[k]!, corners[k + 1]!, corners[k]!, corners[k + 2]!);
  const squares = new BufferGeometry();
  squares.setAttribute("position", new BufferAttribute(places, 3));
  squares.setIndex(edges);
  const lines = new LineSegments(squares, new LineBasicMaterial({ color: look.earth }));
  lines.position.y = 0.3;
  return [made, lines];
}

function spot(look: Look): Object3D[] {
  return [0, Math.PI / 2].map((turned) => {
    const bar = new Mesh(new BoxGeometry(5, 0.12, 0.6), flat(look.warn));
    bar.rotation.y = turned + Math.PI / 4;
    bar.position.y = 0.08;
    return bar;
  });
}

function tube(points: Vector3[], radius: number, colour: string): Object3D {
  return new Mesh(new TubeGeometry(new CatmullRomCurve3(points), points.length * 3, radius, 6), flat(colour));
}

/** Small balls an even way apart, so that it tells itself from the other path without colour. */
function dotted(group: Group, points: Vector3[], colour: string): void {
  const curve = new CatmullRomCurve3(points);
  const ball = new SphereGeometry(0.35, 8, 6);
  const material = flat(colour);
  for (const point of curve.getSpacedPoints(Math.max(10, Math.round(curve.getLength() / 4)))) {
    const dot = new Mesh(ball, material);
    dot.position.copy(point);
    group.add(dot);
  }
}

function flat(color: string): MeshLambertMaterial {
  return new MeshLambertMaterial({ color });
}

function dispose(group: Object3D): void {
  group.traverse((o) => {
    if (!(o instanceof Mesh || o instanceof Line)) return;
    (o.geometry as BufferGeometry).dispose();
    for (const material of [o.material].flat() as Material[]) material.dispose();
  });
}
