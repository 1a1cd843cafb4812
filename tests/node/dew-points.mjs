// Dew points by an independent library, to compare ours with: [[°C, %], …] on standard input, [°C, …] on standard output.
import { readFileSync } from 'node:fs'
import psychrolib from 'psychrolib'

psychrolib.SetUnitSystem(psychrolib.SI)
const airs = JSON.parse(readFileSync(0, 'utf8'))
console.log(JSON.stringify(airs.map(([celsius, percent]) => psychrolib.GetTDewPointFromRelHum(celsius, percent / 100))))
