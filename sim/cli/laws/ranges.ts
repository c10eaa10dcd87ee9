// What numbers a law's arguments may be, by the argument's name: where the law has a meaning, not
// where it was fitted. Inside these, laws hold at the ends of their fits, as their sources say.

/** Every limit that is given must hold; none at all is any number. */
export interface Range {
  readonly from?: number;
  readonly above?: number;
  readonly to?: number;
  readonly below?: number;
}

const ANY: Range = {};
const NOT_NEGATIVE: Range = { from: 0 };
const POSITIVE: Range = { above: 0 };
const SHARE: Range = { from: 0, to: 1 };

export const RANGES: Readonly<Record<string, Range>> = {
  // Temperatures, pressures, times.
  ...{ t_C: { from: -60, to: 200 }, t_s: NOT_NEGATIVE, t0_s: NOT_NEGATIVE },
  ...{ p_Pa: NOT_NEGATIVE, p_sat_Pa: NOT_NEGATIVE, p_v_Pa: NOT_NEGATIVE, p_s_Pa: NOT_NEGATIVE },
  ...{ p1_Pa: POSITIVE, p2_Pa: POSITIVE, dp_max_Pa: POSITIVE, tau_Pa: NOT_NEGATIVE },
  // Fluids.
  ...{ x: SHARE, phi: SHARE, phi0: { from: 0, below: 1 }, phi1: { from: 0, below: 1 } },
  ...{ rho_kg_m3: POSITIVE, rho_l_kg_m3: POSITIVE, rho_g_kg_m3: NOT_NEGATIVE },
  ...{ sigma_N_m: POSITIVE, mu_Pa_s: POSITIVE, nu_m2_s: POSITIVE, k_L_m_s: NOT_NEGATIVE },
  // Flow: its sign is its direction.
  ...{ Q_m3_s: ANY, j_m_s: ANY, J_m_s: NOT_NEGATIVE, V_m_s: NOT_NEGATIVE, dV_m_s: ANY },
  ...{ u_m_s: NOT_NEGATIVE, uA_m3_s: NOT_NEGATIVE, Re: POSITIVE, Fr1: NOT_NEGATIVE, Eo: POSITIVE },
  // Gas.
  ...{ alpha: SHARE, left: SHARE, right: SHARE, next: SHARE, n: NOT_NEGATIVE, moves: SHARE },
  ...{ sine: { from: -1, to: 1 }, fall_sine: { above: 0, to: 1 } },
  // Lengths, angles, shapes.
  ...{ D_m: POSITIVE, e_m: POSITIVE, L_m: NOT_NEGATIVE, d_m: POSITIVE, d50_m: POSITIVE },
  ...{ od_m: POSITIVE, V_m3: POSITIVE, z_m: ANY, h_m: NOT_NEGATIVE, fall_m: ANY },
  ...{ needed_m: NOT_NEGATIVE, depth_m: ANY, e_D: SHARE, b: SHARE, r: SHARE },
  ...{ b2: { above: 0, to: 1 }, open_deg: { from: 0, to: 90 }, angle_deg: { from: 45, to: 90 } },
  ...{ dr: { above: 2 }, DR: { above: 1 }, K0: NOT_NEGATIVE, Cv: POSITIVE, f: NOT_NEGATIVE },
  // Walls.
  ...{ E_Pa: POSITIVE, nu: { from: 0, to: 0.5 }, K_Pa: POSITIVE, compliance_per_Pa: NOT_NEGATIVE },
  ...{ c_l_per_Pa: NOT_NEGATIVE, c: POSITIVE, m: { from: 1, to: 1.4 }, a_m_s: NOT_NEGATIVE },
  ...{ linear_per_K: ANY, liquid_expansion_per_K: ANY, pipe_expansion_per_K: ANY },
  ...{ liquid_compliance_per_Pa: POSITIVE, pipe_compliance_per_Pa: NOT_NEGATIVE },
  ...{ HDS_Pa: POSITIVE, f_T: NOT_NEGATIVE, base73_Pa: POSITIVE, base140_Pa: NOT_NEGATIVE },
  // Heat.
  ...{ outside_m: POSITIVE, radius_m: POSITIVE, k_W_m_K: POSITIVE, h_W_m2_K: POSITIVE },
  ...{ Pr: POSITIVE, Nu: POSITIVE, E1_of: POSITIVE, diffusivity_m2_s: POSITIVE },
  ...{ sun_W_m2: NOT_NEGATIVE, ice: SHARE },
  // Pumps.
  ...{ speed: NOT_NEGATIVE, Hd_m: POSITIVE, Qd_m3_s: POSITIVE, flow_share: NOT_NEGATIVE },
  ...{ ratio: NOT_NEGATIVE, Q_bep_m3_s: POSITIVE, eta_max: { above: 0, to: 1 } },
  ...{ H_m: NOT_NEGATIVE, eta: { above: 0, to: 1 }, cp_J_kg_K: POSITIVE, P_W: NOT_NEGATIVE },
  ...{ water_kg: POSITIVE, water_J_kg_K: POSITIVE, metal_kg: NOT_NEGATIVE },
  ...{ metal_J_kg_K: NOT_NEGATIVE, q_0_m3_s: NOT_NEGATIVE },
  // Motors and what feeds them.
  ...{ V_V: POSITIVE, efficiency: { above: 0, to: 1 }, magnetising_share: { from: 0, below: 1 } },
  ...{ locked_times: { above: 1 }, slip: { above: 0, to: 1 }, v: POSITIVE, load: NOT_NEGATIVE },
  ...{ copper_m2: POSITIVE, droop: { from: 0, below: 1 }, S_VA: POSITIVE, Y_A_V: NOT_NEGATIVE },
  ...{ image: NOT_NEGATIVE, times_rating: NOT_NEGATIVE, leak_A: NOT_NEGATIVE },
  // What goes wrong.
  ...{ area: POSITIVE, shut: SHARE, wear: SHARE, grows_per_Pa: NOT_NEGATIVE },
  ...{ emptied: NOT_NEGATIVE, high_Pa: POSITIVE, low_Pa: POSITIVE },
  // Grains and filters.
  ...{ s: POSITIVE, theta: POSITIVE, F_L: NOT_NEGATIVE, mass_kg: NOT_NEGATIVE },
  ...{ uc_m_s: NOT_NEGATIVE, w_m_s: NOT_NEGATIVE, T: NOT_NEGATIVE },
  ...{ area_m2: POSITIVE, medium_per_m: NOT_NEGATIVE, cake_m_kg: NOT_NEGATIVE },
};

/** As `from 0 to 1`, `above 0`; empty where any number will do. */
export function rangeText({ from, above, to, below }: Range): string {
  return [
    ...(from === undefined ? [] : [`from ${from}`]),
    ...(above === undefined ? [] : [`above ${above}`]),
    ...(to === undefined ? [] : [`to ${to}`]),
    ...(below === undefined ? [] : [`below ${below}`]),
  ].join(' ');
}

export function isWithin(x: number, { from, above, to, below }: Range): boolean {
  if (from !== undefined && x < from) return false;
  if (above !== undefined && x <= above) return false;
  if (to !== undefined && x > to) return false;
  return below === undefined || x < below;
}
