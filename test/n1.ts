import { readFileSync } from 'node:fs';
import { parseScenario } from '/tmp/wt/day/sim/scenario.ts';
import { createWorld, step, hash, clone } from '/tmp/wt/day/sim/world.ts';
const json = JSON.parse(readFileSync('/tmp/wt/day/levels/02-sedge-meadow/scenario.json','utf8'));
json.ends_after_s = 172800;
const w = createWorld(parseScenario(json), 1);
step(w,[{kind:'leave',hours:1}]);
let n=0; 
while (w.state.counter[3]!>0) { const b=w.state.counter[0]!; step(w,[]); n++; const p=w.state.counter[0]!-b;
 if (n%300===0 || p==100) { let f=0,fc=0; for (let c=0;c<w.state.flow.length;c++){ const r=Math.max(Math.abs(w.state.flow[c]!),Math.abs(w.state.flowMean[c]!))/w.night.least[c]!; if(r>f){f=r;fc=c;} }
 const col=w.plan.columns[fc]!; const L=w.plan.links[col.link]!; 
 if (n%300==0||n%7==0) console.log(n,p,(w.state.counter[0]!/10).toFixed(0),'s rate',f.toExponential(2),L.id,w.state.flow[fc],w.state.flowMean[fc], w.scratch.alpha[col.cell]); } }
