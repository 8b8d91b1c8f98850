"""Air through pipes and holes, by the library fluids.

Reads {"lines": [{bore, length, roughness, loss, temperature, inlet, flow, choke}, …],
"holes": [{flow, discharge, temperature, inlet, outlet}, …],
"walls": [[reynolds, roughness], …]} in SI units, pressures absolute, and writes
for each line Darcy's factor, the pressure behind it and the mass flow at which it
would choke with the friction of the flow choke; for each hole the diameter that
API Standard 520 asks for; for each wall the factor by Colebrook.
"""
import json
import math
import sys

from fluids.atmosphere import ATMOSPHERE_1976 as air
from fluids.compressible import P_isothermal_critical_flow, isothermal_gas
from fluids.core import Reynolds
from fluids.friction import Colebrook, friction_laminar
from fluids.safety_valve import API520_A_g


def factor(reynolds, roughness):
    return Colebrook(reynolds, roughness) if reynolds >= 4000 else friction_laminar(reynolds)


def line(q):
    bore, length, inlet = q["bore"], q["length"], q["inlet"]
    density = air.density(q["temperature"], inlet)
    area = math.pi / 4 * bore * bore

    def friction(flow):
        speed = flow / (density * area)
        return factor(Reynolds(V=speed, D=bore, rho=density, mu=air.viscosity(q["temperature"])), q["roughness"] / bore)

    def resistance(flow):  # what is lost in bends is so much more of the wall
        return friction(flow) + q["loss"] * bore / length

    at_choke = resistance(q["choke"])
    least = P_isothermal_critical_flow(P=inlet, fd=at_choke, D=bore, L=length)
    return {
        "factor": friction(q["flow"]),
        "outlet": isothermal_gas(density, resistance(q["flow"]), P1=inlet, L=length, D=bore, m=q["flow"]),
        "choke": isothermal_gas(density, at_choke, P1=inlet, P2=least, L=length, D=bore),
    }


def hole(q):
    area = API520_A_g(m=q["flow"], T=q["temperature"], Z=1, MW=28.9644, k=1.4, P1=q["inlet"], P2=q["outlet"], Kd=q["discharge"], Kb=1, Kc=1)
    return math.sqrt(4 * area / math.pi)


ask = json.load(sys.stdin)
json.dump({
    "lines": [line(q) for q in ask["lines"]],
    "holes": [hole(q) for q in ask["holes"]],
    "walls": [Colebrook(*q) for q in ask["walls"]],
}, sys.stdout)
