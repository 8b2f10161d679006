"""Owns properties: food components, water, air, wood, gas, flames, free convection."""

import CoolProp.CoolProp as cp
import cantera as ct
import ht
import numpy as np

FOODS = {"protein": "FoodProtein", "fat": "FoodFat", "carbohydrate": "FoodCarbohydrate", "fiber": "FoodFiber", "ash": "FoodAsh", "ice": "FoodIce",
         "water_ASHRAE_0_150C": "FoodWater"}


def choi_okos_values(rows):
    """Component properties from CoolProp's incompressible food components (ASHRAE 2006 after Choi & Okos 1986)."""
    out = []
    for row in rows:
        name, t = FOODS.get(row["component"]), float(row["T_degC"]) + 273.15
        if name is None or (name == "FoodWater" and t < 273.16):
            out.append({})
            continue
        ask = lambda key: cp.PropsSI(key, "T", t, "P", 1e6, "INCOMP::" + name)
        try:
            out.append({"cp_kJ_kgK": ask("C") / 1000, "k_W_mK": ask("L"), "rho_kg_m3": ask("D")})
        except ValueError:
            out.append({})
    return out


def water_steam(rows):
    """Saturated water from IAPWS-95 as CoolProp has it."""
    out = []
    for row in rows:
        t = max(float(row["T_C"]) + 273.15, 273.16)
        h = [cp.PropsSI("H", "T", t, "Q", q, "Water") / 1000 for q in (0, 1)]
        out.append({"h_fg_CoolProp": h[1] - h[0]})
    return out


def air(rows):
    """Dry air at one atmosphere."""
    out = []
    h25 = cp.PropsSI("H", "T", 298.15, "P", 101325, "Air")
    for row in rows:
        t = float(row["T_C"]) + 273.15
        ask = lambda key: cp.PropsSI(key, "T", t, "P", 101325, "Air")
        out.append({"rho": ask("D"), "cp": ask("C") / 1000, "k": ask("L"), "mu_uPas": ask("V") * 1e6, "Pr": ask("PRANDTL"),
                    "h_above_25C": (ask("H") - h25) / 1000})
    return out


def wood_lhv(rows):
    """Net heating value as received."""
    out = []
    for row in rows:
        dry, m = float(row["q_net_d_MJ_kg"]), float(row["M_pct_wet_basis"])
        q = dry * (1 - m / 100) - 0.02443 * m
        out.append({"q_net_ar_MJ_kg": q, "q_net_ar_kWh_kg": q / 3.6, "u_pct_dry_basis": 100 * m / (100 - m)})
    return out


# Atomic masses by mass share of the dry wood in wood_stoich.csv's first fuel.
WOOD = {"C": 0.49, "H": 0.062, "O": 0.44, "N": 0.001, "ash": 0.005}
ATOM = {"C": 12.011, "H": 1.008, "O": 15.999, "N": 14.007}
AIR_O2, AIR_KG_KMOL, NORMAL = 0.2095, 28.9647, 22.414


def wood_stoich(rows):
    """Air and flue gas of the typical deciduous wood."""
    out = []
    for row in rows:
        if not row["fuel"].startswith("deciduous wood typical (C49 H6.2 O44"):
            out.append({})
            continue
        m, lam = float(row["M_wet_frac"]), float(row["lambda"])
        c, h, o, n = (WOOD[e] / ATOM[e] * (1 - m) for e in "CHON")
        o2 = c + h / 4 - o / 2
        air_kmol = o2 / AIR_O2
        dry = c + n / 2 + lam * air_kmol - o2
        water = h / 2 + m / 18.015
        out.append({"Lmin_kg_kg": air_kmol * AIR_KG_KMOL, "Lmin_m3N_kg": air_kmol * NORMAL,
                    "m_flue_kg_kg": 1 - WOOD["ash"] * (1 - m) + lam * air_kmol * AIR_KG_KMOL,
                    "V_flue_wet_m3N_kg": (dry + water) * NORMAL, "V_flue_dry_m3N_kg": dry * NORMAL,
                    "CO2_dry": c / dry, "O2_dry": (lam - 1) * o2 / dry, "H2O_wet": water / (dry + water)})
    return out


def heating_value(fuel):
    """Net and gross heating value at 298.15 K, MJ/kg, by Cantera."""
    gas = ct.Solution("gri30.yaml")
    gas.TPX = 298.15, ct.one_atm, {fuel: 1}
    h1, mass = gas.enthalpy_mass, gas.mean_molecular_weight
    c, h = gas.n_atoms(fuel, "C"), gas.n_atoms(fuel, "H")
    gas.TPX = 298.15, ct.one_atm, {fuel: 1, "O2": c + h / 4}
    before, y = gas.enthalpy_mass, gas[fuel].Y[0]
    gas.TPX = None, None, {"CO2": c, "H2O": h / 2}
    gas.TP = 298.15, ct.one_atm
    net = (before - gas.enthalpy_mass) / y / 1e6
    return net


def gas_heating_value(rows):
    """Net heating value by Cantera, beside the standard's."""
    names = {"methane": "CH4", "ethane": "C2H6", "propane": "C3H8"}
    out = []
    for row in rows:
        fuel = names.get(row["gas"])
        out.append({"LHV_cantera_MJ_kg": heating_value(fuel)} if fuel else {})
    return out


def flame(rows):
    """Adiabatic equilibrium flame of the gases."""
    names = {"methane": "CH4", "propane": "C3H8"}
    out = []
    for row in rows:
        fuel = names.get(row["fuel"])
        if fuel is None:
            out.append({})
            continue
        gas = ct.Solution("gri30.yaml")
        gas.set_equivalence_ratio(1 / float(row["lambda"]), fuel, "O2:1, N2:3.76")
        gas.TP = 298.15, ct.one_atm
        gas.equilibrate("HP")
        out.append({"T_eq_K": gas.T})
    return out


def ht_free_convection(rows):
    """Nusselt numbers of free convection."""
    out = []
    for row in rows:
        ra, pr = float(row["Ra"]), 0.7
        out.append({"Nu_hor_McAdams": ht.Nu_horizontal_plate_McAdams(pr, ra / pr), "Nu_hor_VDI": ht.Nu_horizontal_plate_VDI(pr, ra / pr),
                    "Nu_hor_Rohsenow": ht.Nu_horizontal_plate_Rohsenow(pr, ra / pr), "Nu_vert_Churchill": ht.Nu_vertical_plate_Churchill(pr, ra / pr)})
    return out
