import { PI, pow } from '../../geometry/exact-math.ts';
import { GRAVITY } from '../../units.ts';
import { type Alloy, heatFactor, ohmsAMetre } from './alloys.ts';

/** Of fully oxidised nichrome (Kanthal, Nikrothal 80); taken for stainless, too. */
const EMISSIVITY = 0.88;
/** Stefan–Boltzmann constant, W/(m²·K⁴) (CODATA). */
const SIGMA = 5.670374e-8;
const ZERO_CELSIUS_K = 273.15;
export const ROOM_CELSIUS = 20;

/** Air at sea level: viscosity and conductivity after the U.S. Standard Atmosphere 1976, equations 51 and 53. */
function air(kelvin: number) {
  const power = kelvin * Math.sqrt(kelvin);
  const viscosity = (1.458e-6 * power) / (kelvin + 110.4);
  const conductivity = (2.64638e-3 * power) / (kelvin + 245.4 * pow(10, -12 / kelvin));
  const density = 101_325 / (287.053 * kelvin);
  return { conductivity, kinematic: viscosity / density, prandtl: (viscosity * HEAT_OF_AIR) / conductivity };
}

/** J/(kg·K), near enough from 20 to 600 °C for the sixth root it goes into. */
const HEAT_OF_AIR = 1020;

/**
 * Watts that a metre of straight, level, taut wire gives off in still air at a temperature: free convection of a horizontal
 * cylinder (Churchill and Chu, Int. J. Heat Mass Transfer 18 (1975) 1049) and radiation.
 */
export function wattsInAir(diameterMm: number, celsius: number): number {
  const [hot, cold] = [celsius + ZERO_CELSIUS_K, ROOM_CELSIUS + ZERO_CELSIUS_K];
  const d = diameterMm / 1000;
  const film = (hot + cold) / 2;
  const { conductivity, kinematic, prandtl } = air(film);
  const grashof = (GRAVITY * (hot - cold) * d * d * d) / (film * kinematic * kinematic);
  const shape = pow(1 + pow(0.559 / prandtl, 9 / 16), 8 / 27);
  const root = 0.6 + (0.387 * pow(Math.max(0, grashof * prandtl), 1 / 6)) / shape;
  const film2 = (root * root * conductivity) / d;
  const radiated = EMISSIVITY * SIGMA * (hot * hot * hot * hot - cold * cold * cold * cold);
  return PI * d * (film2 * (hot - cold) + radiated);
}

/** Amps that hold a wire at a temperature in still air; null where nothing is known of its resistance there. */
export function ampsInAir(alloy: Alloy, diameterMm: number, celsius: number): number | null {
  const factor = heatFactor(alloy, celsius);
  return factor === null ? null : Math.sqrt(wattsInAir(diameterMm, celsius) / (ohmsAMetre(alloy, diameterMm) * factor));
}

/** The temperature in still air at a current, by halving; null where that is outside the table of resistances. */
export function celsiusInAir(alloy: Alloy, diameterMm: number, amps: number): number | null {
  let [low, high] = [ROOM_CELSIUS, alloy.factors[alloy.factors.length - 1][0]];
  const most = ampsInAir(alloy, diameterMm, high);
  if (most === null || amps > most) return null;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if ((ampsInAir(alloy, diameterMm, middle) ?? Infinity) < amps) low = middle;
    else high = middle;
  }
  return low;
}

/** J/(kg·K) of polystyrene (designerdata.nl, polystyrene). */
const HEAT_OF_POLYSTYRENE = 1300;

/** Watts that the foam in the kerf takes for a metre of wire: what is molten, warmed by so much. */
export const wattsIntoFoam = (densityKgM3: number, kerfMm: number, feedMmS: number, riseK: number): number =>
  densityKgM3 * (kerfMm / 1000) * (feedMmS / 1000) * HEAT_OF_POLYSTYRENE * riseK;
