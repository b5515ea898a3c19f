// The page of the desk. It asks its own machine and nobody else; what it shows is worked out there.
"use strict";

const token = location.pathname.split("/")[1];
const tab = Array.from(crypto.getRandomValues(new Uint8Array(12)), (byte) => byte.toString(16).padStart(2, "0")).join("");
const by = (id) => document.getElementById(id);
const WAIT_AFTER_LET_GO_MS = 250;
// The desk takes no longer files; it would break off the sending of one.
const MOST_BYTES = 16 * 1024 * 1024;

// Asks the desk. Gives the answer's status and document; nothing where the desk is gone.
async function ask(method, path, { fields = {}, body = null, signal = undefined } = {}) {
  const query = new URLSearchParams(fields).toString();
  const response = await fetch(query ? `${path}?${query}` : path, {
    method, body, signal, headers: { "x-costcard-token": token }, cache: "no-store", credentials: "omit",
  });
  const text = await response.text();
  let document = null;
  try { document = JSON.parse(text); } catch { document = { trouble: text }; }
  return { status: response.status, document };
}

// Whether what is told is of a change: the next answer then takes it away.
let isOfChange = false;

function told(words, ofChange = false) {
  isOfChange = ofChange;
  by("trouble-told").textContent = words;
  by("trouble").hidden = false;
}
by("trouble-close").addEventListener("click", () => { by("trouble").hidden = true; });

function news(words) {
  if (by("news").textContent !== words) by("news").textContent = words;
}

// What the page itself waits for.
let doing = null;

// Does something to the lesson; what is at fault is told, and nothing is lost.
async function act(path, options) {
  by("trouble").hidden = true;
  doing = options.words || "One moment";
  if (lesson) showBusy();
  try {
    const { status, document } = await ask("POST", path, options);
    if (status === 200) return document;
    told(document.trouble || "This cannot be done.");
  } catch {
    told("The desk does not answer: it has ended. Start it again with `costcard desk`.");
  } finally {
    doing = null;
    if (lesson) showBusy();
  }
  return null;
}

// ---- The lesson ----

let lesson = null;
let shownTrouble = null;

async function follow() {
  for (;;) {
    try {
      const since = lesson ? lesson.version : 0;
      const { status, document } = await ask("GET", "/api/lesson", { fields: { since } });
      if (status !== 200) throw new Error("refused");
      show(document);
    } catch {
      busy("The desk does not answer. It has ended, or this machine is busy.", false);
      news("The desk does not answer.");
      await new Promise((then) => setTimeout(then, 2000));
    }
  }
}

function show(next) {
  const before = lesson;
  lesson = next;
  showBusy();
  if (next.trouble && next.trouble !== shownTrouble) told(next.trouble);
  shownTrouble = next.trouble;
  if (!next.html) return;
  const name = next.player ? next.player.name : null;
  by("title").textContent = name ? `${name} at the desk` : "The desk";
  document.title = by("title").textContent;
  by("subtitle").textContent = subtitle(next);
  choose(by("player"), next.player && next.player.from, next.player && next.player.name);
  choose(by("course"), next.course && next.course.from, next.course && next.course.name);
  if (document.activeElement !== by("goal-field")) by("goal-field").value = next.player ? String(next.goal) : "";
  by("added").textContent = next.player && next.player.added.length ? `Added so far: ${next.player.added.join(", ")}.` : "";
  by("shots-told").innerHTML = next.html.shots;
  if (next.html.card) by("card-here").innerHTML = next.html.card;
  by("card-here").classList.toggle("old", !next.card_is_new);
  showDay(before, next);
  if (!before || !before.player || !next.player || before.player.name !== next.player.name) nameReport(name);
  const standing = next.standing ? next.standing.number : null;
  if (standing !== (before && before.standing ? before.standing.number : null)) {
    bag(next.standing ? next.standing.clubs : []);
    question("quick");
    letGo();
  }
  tellNews(before, next);
}

function subtitle(next) {
  if (!next.player) return "Choose a player and a course to begin.";
  const who = `${next.player.name}, off ${handicap(next.player.handicap)}`;
  const where = next.course ? `, at ${next.course.name}` : "";
  return `${who}${where}. Goal: ${handicap(next.goal)}.${next.course ? "" : " Choose a course."}`;
}

const handicap = (index) => (index < 0 ? `+${-index}` : index === 0 ? "scratch" : String(index));

function tellNews(before, next) {
  if (!before) return;
  if (next.card_is_new && !before.card_is_new) news("The cost card is there.");
  else if (next.standing && (!before.standing || before.standing.number !== next.standing.number)) news("The course is set up: changes can be tried.");
}

function showBusy() {
  const words = lesson.busy.map((work) => {
    const rounds = !work.rounds_done ? "" : work.rounds_done < work.rounds ? `, ${work.rounds_done} of ${work.rounds} rounds played` : ", all rounds played";
    return `${work.what}: ${work.seconds} s so far${rounds}`;
  });
  if (doing) words.unshift(doing);
  if (words.length) busy(`${words.join(". ")}.`, true);
  else if (lesson.standing) busy("Everything is worked out.", false);
  else busy(lesson.player || lesson.course ? "" : "Nothing is worked out yet.", false);
}

function busy(words, isBusy) {
  by("busy").textContent = words;
  by("busy").classList.toggle("is-busy", isBusy);
}

function showDay(before, next) {
  const isNew = !before || JSON.stringify(before.day) !== JSON.stringify(next.day);
  if (isNew) {
    by("firmness").value = next.day.firmness === null ? "" : String(next.day.firmness);
    by("wind").value = next.day.wind_mph === null ? "" : String(next.day.wind_mph);
    by("wind-from").value = next.day.wind_from_deg === null ? "" : String(next.day.wind_from_deg);
  }
  const standing = next.standing;
  if (standing && next.day.words && standing.usual_expected !== null && next.busy.length === 0) {
    const more = standing.expected - standing.usual_expected;
    const way = more >= 0 ? `${more.toFixed(1)} strokes more` : `${(-more).toFixed(1)} strokes fewer`;
    by("day-said").textContent = `Today (${next.day.words}) the expected score is ${standing.expected.toFixed(1)}: ${way} than as the course file says.`;
  }
}

// Sets a list to what sits at the desk, which may be a file that was dropped.
function choose(list, from, name) {
  if (!from) return;
  for (const option of list.options) {
    if (option.value === from && !("own" in option.dataset)) {
      list.value = from;
      return;
    }
  }
  let own = list.querySelector("option[data-own]");
  if (!own) {
    own = document.createElement("option");
    own.dataset.own = "";
    list.append(own);
  }
  own.value = from;
  own.textContent = `${name} (${from})`;
  list.value = from;
}

function fill(list, groups) {
  for (const [label, names] of groups) {
    if (!names.length) continue;
    const group = document.createElement("optgroup");
    group.label = label;
    for (const name of names) group.append(new Option(name, name));
    list.append(group);
  }
}

async function listFiles() {
  const { status, document: files } = await ask("GET", "/api/files");
  if (status !== 200) return;
  const own = (names) => names.filter((name) => !name.startsWith("demo:"));
  const demo = (names) => names.filter((name) => name.startsWith("demo:"));
  fill(by("player"), [["Players in the folder", own(files.players)], ["Sheets of shots", files.sheets], ["Demo players", demo(files.players)]]);
  fill(by("course"), [["In the folder", own(files.courses)], ["Demo courses", demo(files.courses)]]);
  fill(by("sheet"), [["Sheets of shots", files.sheets]]);
  fill(by("who-map"), [["Maps", files.maps]]);
  fill(by("sheet-map"), [["Maps", files.maps]]);
}

// ---- Who, where, which goal ----

// A sheet that waits for who hit it: what is to be sent, once it is told.
let sheet = null;

async function take(path, fields, body, name) {
  const done = await act(path, { fields, body, words: `Reading ${name}` });
  if (done === "who") {
    sheet = { path, fields, body };
    by("who-sheet").textContent = name;
    by("who-form").hidden = false;
    by("who-name").focus();
  } else if (done) by("who-form").hidden = true;
  // What was refused leaves the lists as the lesson has them.
  if (!done || done === "who") backToLesson();
  return done;
}

function backToLesson() {
  for (const [list, seat] of [[by("player"), lesson && lesson.player], [by("course"), lesson && lesson.course]]) {
    if (seat) choose(list, seat.from, seat.name);
    else list.value = "";
  }
}

for (const id of ["player", "course"]) {
  by(id).addEventListener("change", (event) => {
    const file = event.target.value;
    if (file) take("/api/choose", { file, as: "seat" }, null, file);
  });
}

by("who-form").addEventListener("submit", async (event) => {
  event.preventDefault();
  if (!sheet) return;
  const who = { player: by("who-name").value, handicap: by("who-handicap").value, hand: by("who-hand").value, sex: by("who-sex").value, map: by("who-map").value };
  await take(sheet.path, { ...sheet.fields, ...who }, sheet.body, by("who-sheet").textContent);
});
by("who-cancel").addEventListener("click", () => { sheet = null; by("who-form").hidden = true; });

by("goal-field").addEventListener("change", () => {
  if (by("goal-field").value !== "") act("/api/goal", { fields: { handicap: by("goal-field").value } });
});

by("day-form").addEventListener("submit", (event) => {
  event.preventDefault();
  act("/api/day", { fields: { firmness: by("firmness").value, wind_mph: by("wind").value, wind_from_deg: by("wind-from").value } });
});

by("sheet").addEventListener("change", async (event) => {
  const file = event.target.value;
  if (file) await act("/api/choose", { fields: { file, as: "shots", map: by("sheet-map").value }, words: `Reading ${file}` });
  event.target.value = "";
});

function dropZone(id, fields) {
  const input = by(id);
  const zone = input.closest(".drop");
  const send = (file) => {
    if (file.size > MOST_BYTES) told(`error: ${file.name}: this file is larger than ${MOST_BYTES / 1024 / 1024} MB`);
    else return take("/api/drop", { ...fields(), name: file.name }, file, file.name);
    return null;
  };
  input.addEventListener("change", async () => {
    const [file] = input.files;
    if (file) await send(file);
    input.value = "";
  });
  zone.addEventListener("dragover", (event) => { event.preventDefault(); zone.classList.add("over"); });
  zone.addEventListener("dragleave", () => zone.classList.remove("over"));
  zone.addEventListener("drop", (event) => {
    event.preventDefault();
    zone.classList.remove("over");
    const [file] = event.dataTransfer.files;
    if (file) send(file);
  });
}
dropZone("seat-file", () => ({ as: "seat" }));
dropZone("shots-file", () => ({ as: "shots", map: by("sheet-map").value }));
// A file that misses its place must not take that of the page.
for (const kind of ["dragover", "drop"]) window.addEventListener(kind, (event) => event.preventDefault());

// ---- Changes ----

const sliders = [...document.querySelectorAll(".of-clubs")];
const levels = [...document.querySelectorAll(".of-skill")];
// By clubs, in the order they were first changed: figure to amount.
const ofClubs = new Map();
// By part of the game: a handicap.
const ofSkills = new Map();

function signed(value) {
  return value > 0 ? `+${value}` : String(value);
}

function changes() {
  const texts = [];
  for (const [who, figures] of ofClubs) {
    for (const slider of sliders) {
      const amount = figures.get(slider.dataset.figure);
      if (amount) texts.push({ text: `${who} ${slider.dataset.figure} ${signed(amount)}${slider.dataset.suffix}`, undo: () => setClubs(who, slider.dataset.figure, 0) });
    }
  }
  for (const [skill, off] of ofSkills) texts.push({ text: `${skill} level ${off}`, undo: () => ofSkills.delete(skill) });
  return texts;
}

function setClubs(who, figure, amount) {
  if (!ofClubs.has(who)) ofClubs.set(who, new Map());
  const figures = ofClubs.get(who);
  if (amount) figures.set(figure, amount);
  else figures.delete(figure);
  if (!figures.size) ofClubs.delete(who);
}

const fieldOf = (slider) => document.querySelector(`[data-for="${slider.id}"]`);

// Sets the controls to what is changed of the clubs that are chosen.
function showControls() {
  const figures = ofClubs.get(by("who").value) || new Map();
  for (const slider of sliders) {
    slider.value = String(figures.get(slider.dataset.figure) || 0);
    fieldOf(slider).value = String(figures.get(slider.dataset.figure) || 0);
  }
  for (const level of levels) {
    const off = ofSkills.get(level.dataset.skill);
    by(`use-${level.id.slice("level-".length)}`).checked = off !== undefined;
    if (off !== undefined) level.value = fieldOf(level).value = String(off);
  }
}

// What is changed stays when the page is loaded again, and is the same in every tab of this desk.
const KEPT = `changes of ${token}`;

function keep() {
  const kept = { clubs: [...ofClubs].map(([who, figures]) => [who, [...figures]]), skills: [...ofSkills] };
  try { localStorage.setItem(KEPT, JSON.stringify(kept)); } catch { /* A browser that keeps nothing: the page itself still does. */ }
}

function recall() {
  let kept = null;
  try {
    // Those of desks that have ended.
    for (const key of Object.keys(localStorage)) if (key.startsWith("changes of ") && key !== KEPT) localStorage.removeItem(key);
    kept = JSON.parse(localStorage.getItem(KEPT));
  } catch { return; }
  if (!kept) return;
  ofClubs.clear();
  ofSkills.clear();
  for (const [who, figures] of kept.clubs) ofClubs.set(who, new Map(figures));
  for (const [skill, off] of kept.skills) ofSkills.set(skill, off);
}

addEventListener("storage", (event) => {
  if (event.key !== KEPT) return;
  recall();
  showControls();
  showChanged();
  question("quick");
  letGo();
});

function showChanged() {
  const list = by("changed");
  const all = changes();
  list.replaceChildren(...all.map(({ text, undo }) => {
    const item = document.createElement("li");
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = "Undo";
    button.setAttribute("aria-label", `Undo ${text}`);
    button.addEventListener("click", () => { undo(); showControls(); changed(); letGo(); by("undo").focus(); });
    item.append(Object.assign(document.createElement("span"), { textContent: text }), button);
    return item;
  }));
  if (!all.length) list.append(Object.assign(document.createElement("li"), { textContent: "nothing" }));
}

function changed() {
  keep();
  showChanged();
  question("quick");
}

let letGoTimer = 0;
function letGo() {
  clearTimeout(letGoTimer);
  letGoTimer = setTimeout(() => question("score"), WAIT_AFTER_LET_GO_MS);
}

function pair(slider, set) {
  const field = fieldOf(slider);
  const take = (value) => { set(value); changed(); };
  slider.addEventListener("input", () => { clearTimeout(letGoTimer); field.value = slider.value; take(Number(slider.value)); });
  slider.addEventListener("change", letGo);
  field.addEventListener("input", () => {
    clearTimeout(letGoTimer);
    if (field.value === "" || !Number.isFinite(Number(field.value))) return;
    const value = Math.min(Number(field.max), Math.max(Number(field.min), Number(field.value)));
    slider.value = String(value);
    take(value);
  });
  field.addEventListener("change", () => {
    // What is no number, or beyond the limits, gives way to what is reckoned with.
    const value = Number(field.value);
    if (field.value === "" || !(value >= Number(field.min) && value <= Number(field.max))) {
      field.value = slider.value;
      showControls();
    }
    letGo();
  });
}

for (const slider of sliders) pair(slider, (value) => setClubs(by("who").value, slider.dataset.figure, value));
for (const level of levels) {
  const use = by(`use-${level.id.slice("level-".length)}`);
  pair(level, (value) => { ofSkills.set(level.dataset.skill, value); use.checked = true; });
  use.addEventListener("change", () => {
    if (use.checked) ofSkills.set(level.dataset.skill, Number(level.value));
    else ofSkills.delete(level.dataset.skill);
    changed();
    letGo();
  });
}
by("who").addEventListener("change", showControls);
by("club").addEventListener("change", () => { question("quick"); letGo(); });
by("undo").addEventListener("click", () => {
  ofClubs.clear();
  ofSkills.clear();
  showControls();
  changed();
  letGo();
});

function bag(clubs) {
  by("bag").replaceChildren(...clubs.map((club) => new Option(club, club)));
  const chosen = by("club").value;
  by("club").replaceChildren(new Option("club that changes", ""), ...clubs.map((club) => new Option(club, club)));
  by("club").value = clubs.includes(chosen) ? chosen : "";
}

// ---- Questions: one is on its way at a time, and of those that wait only the newest is asked ----

// What is said while an answer is on its way, and when it is there.
const HOW = {
  quick: ["A quick look …", "A quick look; let go for the score in full."],
  score: ["Working out the score in full …", "The score in full; how sure it is follows."],
  all: ["The score in full; working out how sure it is, part by part …", "Everything is worked out."],
};
let asked = 0;
let onItsWay = null;
let waiting = null;

function question(depth) {
  if (!lesson || !lesson.standing) {
    by("said").textContent = lesson && lesson.player && lesson.course ? "The course is being set up: then changes can be tried." : "Choose a player and a course: then changes can be tried.";
    return;
  }
  waiting = { depth, since: performance.now() };
  // A long answer that is no longer the newest is not waited for.
  const isLong = onItsWay && onItsWay.depth !== "quick";
  if (isLong) onItsWay.abort.abort();
  if (!onItsWay || isLong) send();
}

async function send() {
  const { depth, since } = waiting;
  waiting = null;
  asked += 1;
  const own = { depth, abort: new AbortController() };
  onItsWay = own;
  by("how").textContent = HOW[depth][0];
  const texts = changes().map(({ text }) => text);
  try {
    const body = JSON.stringify({ tab, number: asked, depth, changes: texts, club: by("club").value || null });
    const { status, document } = await ask("POST", "/api/try", { body, signal: own.abort.signal });
    if (onItsWay !== own) return;
    if (status === 200) {
      answered(document, since);
      if (depth === "score" && !waiting) waiting = { depth: "all", since: performance.now() };
    }
    else if (status === 422) refused(document.trouble);
  } catch {
    if (onItsWay !== own) return;
  }
  onItsWay = null;
  if (waiting) send();
}

function answered(answer, since) {
  if (isOfChange) by("trouble").hidden = true;
  const result = by("result");
  const saved = Math.abs(answer.saved) < 0.005 ? 0 : answer.saved;
  by("saved").textContent = saved.toFixed(2).replace("-", "−");
  by("said").textContent = answer.said;
  by("pictures").innerHTML = answer.pictures;
  if (answer.figures) by("figures").innerHTML = answer.figures;
  by("figures").classList.toggle("old", !answer.figures);
  by("how").textContent = HOW[answer.depth][1];
  if (answer.depth === "all") news(answer.said);
  Object.assign(result.dataset, { number: answer.number, depth: answer.depth, saved: answer.saved, after: answer.after, ms: (performance.now() - since).toFixed(0) });
}

function refused(words) {
  by("how").textContent = "This cannot be changed so.";
  by("saved").textContent = "–";
  by("said").textContent = "Undo what cannot be made: the rest is then worked out.";
  by("figures").classList.add("old");
  told(words, true);
}

// ---- The report ----

function nameReport(name) {
  const plain = (name || "").toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-+|-+$/g, "");
  by("save-name").value = `${plain || "report"}.html`;
}

by("save-form").addEventListener("submit", async (event) => {
  event.preventDefault();
  by("save-said").textContent = "";
  const fields = { name: by("save-name").value };
  if (by("save-over").checked) fields.over = "1";
  const saved = await act("/api/report", { fields, words: "Writing the report" });
  if (saved) {
    by("save-said").textContent = `Written: ${saved.path}`;
    by("save-over").checked = false;
  }
});

recall();
showControls();
showChanged();
listFiles().catch(() => {}).finally(follow);
