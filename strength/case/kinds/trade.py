"""Wishbones, knuckles and brackets."""

from strength.case.kinds.kind import Kind
from strength.case.trade.keys import TRADE_KEYS

TRADE = (
    Kind("wishbone", "wishbones", TRADE_KEYS["wishbone"], names=("front", "rear", "ball")),
    Kind("knuckle", "knuckles", TRADE_KEYS["knuckle"], names=("lower", "upper", "wheel")),
    Kind("bracket", "brackets", TRADE_KEYS["bracket"], names=("on", "tip")),
)
