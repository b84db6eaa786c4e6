"use strict";
// Loads the computation, and draws again in the next frame after a control has moved.
const at = id => document.getElementById(id);
const controls = ["wind", "depth", "out"];
const svg = "http://www.w3.org/2000/svg";

const textOf = id => at(id).value + " " + at(id).dataset.unit;

function draw() {
  for (const id of controls) {
    at(id + "-is").value = textOf(id);
    at(id).setAttribute("aria-valuetext", textOf(id));
    at(id).removeAttribute("aria-invalid");
  }
  const begin = performance.now();
  const s = rodeAt(textOf("depth"), textOf("wind"), textOf("out"));
  const took = performance.now() - begin;
  document.body.classList.toggle("stale", "error" in s);
  if ("error" in s) {
    at("says").textContent = s.error;
    if (s.control) at(s.control).setAttribute("aria-invalid", "true");
    return;
  }
  at("says").textContent = s.says;
  at("cost").textContent = `${s.solved} curves solved and written in ${took.toFixed(1)} ms.`;

  // Metres, one scale along and up; the bow stays in view whatever the wind.
  const depth = +at("depth").value, out = +at("out").value;
  const left = 3, right = out + 7, top = 3.2, below = 1.4;
  const wide = left + right, letter = 13 * wide / at("section").clientWidth; // 13 pixels
  at("section").setAttribute("viewBox", `${-left} ${-top} ${wide} ${top + depth + below}`);
  at("section").style.setProperty("--letter", letter + "px");
  at("sea").setAttribute("d", `M${-left} 0H${s.off + .7}`);
  at("bed").setAttribute("d", `M${-left} ${depth}H${right}`);
  let hatch = "";
  for (let x = -left; x < right; x += wide / 60) hatch += `M${x} ${depth + .7}l.5 -.7`;
  at("hatch").setAttribute("d", hatch);
  at("anchor").setAttribute("d", `M0 ${depth}l-1.1 .15m-.5 -.55l.35 .9l.9 -.1`);
  at("stem").setAttribute("d", `M${right} -1.15L${s.off - .15} -1.35C${s.off + .1} -.6 ${s.off + .5} .3 ${s.off + 1.4} .45L${right} .55`);
  at("chain").setAttribute("d", s.chain);
  at("links").setAttribute("d", s.chain);
  at("rope").setAttribute("d", s.rope);
  at("fan").replaceChildren(...s.fan.map(d => {
    const p = document.createElementNS(svg, "path");
    p.setAttribute("d", d);
    return p;
  }));

  // A lead line beside the anchor, a tick for every metre, tells the depth.
  let line = `M${-left + .6} 0V${depth}`;
  for (let d = 0; d <= depth; d++) line += `M${-left + .3} ${d}h.6`;
  at("lead").setAttribute("d", line);
  at("fathomed").setAttribute("x", -left + 1.2);
  at("fathomed").setAttribute("y", depth / 2 + letter * .35);
  at("fathomed").textContent = textOf("depth");

  const lies = Math.min(s.lying, out), chain = Math.max(s.chainOut, lies);
  at("ribbon").setAttribute("viewBox", `0 0 ${out} 4`);
  for (const [id, from, to] of [["lies", 0, lies], ["chain", lies, chain], ["rope", chain, out]]) {
    at("ribbon-" + id).setAttribute("x", from);
    at("ribbon-" + id).setAttribute("width", Math.max(0, to - from));
  }
}

let waiting = false;
function rodeReady() {
  for (const id of controls) {
    at(id).addEventListener("input", () => {
      if (waiting) return;
      waiting = true;
      requestAnimationFrame(() => { waiting = false; draw(); });
    });
  }
  addEventListener("resize", draw); // letters keep their size
  draw();
  document.body.dataset.ready = "yes";
}

(async () => {
  const go = new Go();
  try {
    const {instance} = await WebAssembly.instantiateStreaming(fetch("rode.wasm"), go.importObject);
    go.run(instance);
  } catch (e) {
    at("says").textContent = "The computation did not load: " + e.message;
  }
})();
