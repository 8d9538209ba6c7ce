"""Invented cases for the studies: a bench crane of the Bracken shed, and its parts in text."""

CRANE = """\
title = "Bracken bench crane"
# the comment at the top stays

[defaults]
material = {tube = "E235+N", box = "S235JRH", flat = "S235JR", bar = "42CrMo4+QT"}
filler = "ER70S-6"
process = "mig"
class = "8.8"

[points]
foot = "0 0 0 mm"
head = "0 0 520 mm"
low = "0 0 150 mm"
high = "0 0 400 mm"
knee = "210 0 400 mm"   # where the braces meet the arm
tip = "430 35 400 mm"

[members]
# braces notched by hand
post = {from = "foot", to = "head", via = ["low", "high"], section = "tube 42 x 3 mm", up = "1 0 0"}
arm = {from = "high", to = "430 0 400 mm", via = ["knee"], section = "square 30 x 2 mm", weld_from = "post"}
brace = {from = "low", to = "knee", section = "tube 22 x 1.5 mm", weld_from = "post", weld_to = "arm"}
stay = {from = "head", to = "knee", section = "tube 18 x 1.5 mm", weld_from = "post", weld_to = "arm"}
pin = {from = "430 0 400 mm", to = "tip", section = "bar 16 mm"}

[brackets]
lug = {on = "arm", at = 0.75, tip = "322.5 0 330 mm", plate = "flat 40 x 6 mm", wide = "x", eye = "M10"}

[struts]
guy = {from = "head", to = "-300 90 0 mm", section = "tube 12 x 1.5 mm"}

[supports]
foot = "all"
guy-to = "x y z"

[loads]
"hang on the hook" = {forces = [{at = "tip", force = "90 55 -680 N"}]}
"hang on the lug" = {severity = "hard", forces = [{at = "lug", force = "-260 100 -920 N"}]}
"knock" = {severity = "abuse", forces = [{at = "tip", force = "350 460 130 N", moment = "7 0 -9 N*m"}]}
"""
