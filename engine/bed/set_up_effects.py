"""How the bed does the steps that set the machine up, and what rows and work taken off need of
them: the levers of the carriages, the weights, the arm that joins two beds, ends that are cut.

Every function keeps to one order: what the step needs, what it does to the loops, to the
carriage, to the counter.

Source: a web lesson, "Hems" (W3-001).
"""

from __future__ import annotations

from ..machine.needles import NONE, Needles
from ..machine.rib_steps import Beds
from ..machine.set_up_steps import (
    Carriage,
    Couple,
    CutEnd,
    HangWeights,
    SetCarriage,
    TakeWeightsOff,
    Uncouple,
    Weight,
)
from ..machine.tools import Tool
from ..machine.two_yarn_steps import Yarns
from .state import Bed, Refused

_TOOL = {Weight.COMB: Tool.COMB, Weight.EVEN: Tool.EVEN, Weight.CLAWS: Tool.CLAWS}


def set_carriage(bed: Bed, step: SetCarriage) -> None:
    """Set the levers of one carriage or of both."""
    # needs
    if step.bed is not Beds.MAIN:
        need_arm(bed)
    if step.to is Carriage.HOLD:
        need_brought_back(bed)
    # loops: as they were
    # carriage
    if step.bed is not Beds.SECOND:
        bed.carriage = step.to
    if step.bed is not Beds.MAIN:
        bed.second.carriage = step.to
    # counter: as it was


def hang_weights(bed: Bed, step: HangWeights) -> None:
    """Hang weights under stitches; claw weights may move from one place to another."""
    # needs
    if step.weight is not Weight.COMB:
        bed.need_loaded(step.needles)
    if step.weight in bed.weights and (step.weight is not Weight.CLAWS
                                       or step.needles == bed.claws):
        raise Refused("weights-hang", step.needles, f"no {step.weight.value} yet", "they hang")
    # loops: as they were
    bed.weights |= {step.weight}
    if step.weight is Weight.CLAWS:
        bed.claws = step.needles
    bed.use(_TOOL[step.weight])
    # carriage, counter: as they were


def take_weights_off(bed: Bed, step: TakeWeightsOff) -> None:
    """Take weights off."""
    # needs
    if not bed.weights or (step.claws_only and not bed.claws):
        raise Refused("no-weights", NONE, "weights that hang", "none")
    if step.needles:
        _need_heavy_in_hold(bed, step.needles)
    # loops: as they were
    if step.needles:
        bed.light |= step.needles
    else:
        bed.weights = bed.weights - {Weight.CLAWS} if step.claws_only else frozenset()
        bed.claws = NONE
        bed.light = bed.light if bed.weights else NONE
    # carriage, counter: as they were


def _need_heavy_in_hold(bed: Bed, needles: Needles) -> None:
    bed.need_loaded(needles)
    if loose := needles - bed.holding:
        raise Refused("not-held", loose, "needles in holding", f"{loose} not held")
    if Weight.EVEN not in bed.weights or needles & bed.light:
        raise Refused("no-weights", needles, "weights under these stitches", "none")


def couple(bed: Bed, step: Couple) -> None:
    """Join the carriages of both beds; the arm brings a separate feeder."""
    # needs
    if not bed.second.up:
        raise Refused("second-bed-down", NONE, "the second bed facing the main bed",
                      "it is let down" if bed.program.second else "none")
    if bed.second.arm:
        raise Refused("arm-on", NONE, "two carriages apart", "the connecting arm joins them")
    bed.need_empty_feeder()
    # loops: as they were
    # carriage
    bed.second.arm = True
    # counter: as it was


def uncouple(bed: Bed, step: Uncouple) -> None:
    """Part the carriages; the second bed must be bare, for nothing knits it any more."""
    # needs
    need_arm(bed)
    bed.need_empty_feeder()
    if full := bed.second.loaded:
        raise Refused("second-bed-in-work", full, "no stitch on the second bed",
                      f"loops on {full}")
    # loops: none on it
    # carriage
    bed.second.arm, bed.second.carriage, bed.second.dial = False, None, None
    # counter: as it was


def cut_end(bed: Bed, step: CutEnd) -> None:
    """Cut a yarn that was left hanging from the work."""
    # needs
    if step.yarn in (bed.feeder, bed.contrast):
        raise Refused("feeder-full", NONE, f"{step.yarn} out of its feeder", "it is threaded")
    if step.yarn not in bed.ends:
        raise Refused("no-such-end", NONE, f"an end of {step.yarn} hanging from the work", "none")
    # loops: as they were
    # carriage
    del bed.ends[step.yarn]
    # counter: as it was


# What other steps need of the machine's setting


def need_arm(bed: Bed) -> None:
    """Refuse work on two beds whose carriages are not joined."""
    if not bed.second.arm:
        raise Refused("arm-off", NONE, "the carriages of both beds joined by their arm",
                      "no connecting arm")


def need_levers(bed: Bed) -> None:
    """Refuse a row of the main bed alone that the carriage, as it is set, would not knit so.

    Set to knit it would knit needles in holding back, and those chosen to tuck.
    """
    if bed.second.arm:
        raise Refused("arm-on", NONE, "the main bed's carriage alone", "the arm joins two")
    if bed.carriage is Carriage.SLIP:
        raise Refused("carriage-slips", bed.working, "a carriage set to knit or to hold",
                      "its slip levers are set: it passes every needle by")
    if bed.carriage is Carriage.HOLD:
        need_brought_back(bed)
    if bed.carriage is Carriage.KNIT and (back := (bed.holding & bed.loaded) | bed.tucking):
        raise Refused("hold-off", back, "a carriage set to hold",
                      f"set to knit: it would knit {back} back")


def need_set_for_one(bed: Bed, row: Needles) -> None:
    """Refuse a row of one yarn while the carriage is set to lay two.

    A needle of the row in upper working position would find the second feeder empty and drop its
    stitch, and needles worked by hand stand there (common practice, no source; that a carriage
    taken across without yarn drops the work: "Knitting with 2 carriages", alessandrina.com,
    2011-03).
    """
    if bed.yarns is not Yarns.ONE:
        raise Refused("two-yarns-on", row, "a carriage set to knit one yarn in a row",
                      f"set to knit {bed.yarns.value}")


def need_set_for_two(bed: Bed) -> None:
    """Refuse a row of two yarns while the carriage is set to lay one: it would knit that alone."""
    if bed.yarns is not Yarns.TWO:
        raise Refused("two-yarns-off", bed.picked, "a carriage set to knit two yarns in a row",
                      f"set to knit {bed.yarns.value}")


def need_brought_back(bed: Bed) -> None:
    """Refuse a carriage set to hold over needles that a cast-on by hand left fully forward.

    It would pass them by: the first row is knitted with the carriage set to knit ("Casting On:
    E-wrap cast-on", wickedwoollies.co.uk; "Useful cast ons", needlesofsteel.blogspot.com, 2011).
    """
    if bed.forward:
        raise Refused("needles-forward", bed.forward, "a first row with the carriage set to knit, "
                      "which brings them back", f"{bed.forward} fully forward since the cast-on")


def need_levers_of_two(bed: Bed, beds: Beds) -> None:
    """Refuse a row of two beds for which either carriage is set wrong."""
    need_arm(bed)
    need_set_for_one(bed, bed.working)
    for one, now in ((Beds.MAIN, bed.carriage), (Beds.SECOND, bed.second.carriage)):
        want = Carriage.KNIT if beds in (one, Beds.BOTH) else Carriage.SLIP
        if now is not want:
            raise Refused("lever-wrong", NONE, f"the carriage of {one.value} set to {want.value}",
                          f"set to {now.value}" if now else "never set")


def need_weight(bed: Bed, row: Needles, rows: int) -> None:
    """Refuse rows over stitches that nothing pulls down.

    But for one row through loops just hung, which is knitted with the weights off (common
    practice, no source; the hem of W3-001). Beside held needles the stitches in
    work need claw weights of their own (common practice, no source).
    """
    if not row or (rows == 1 and bed.hung and any(
            on & row for name, on in bed.layers if name in bed.hung)):
        return
    if not bed.weights or row & bed.light or (
            bed.weights == {Weight.CLAWS} and not bed.claws & row):
        raise Refused("no-weight", row, "weights on the stitches that are knitted", "none")
    if bed.holding & bed.loaded and not bed.claws & row:
        raise Refused("no-claws", row, "claw weights under the stitches in work beside held ones",
                      f"claw weights under {bed.claws}" if bed.claws else "none")


def need_even_weights(bed: Bed, row: Needles, rows: int) -> None:
    """Refuse rows where none is held any more, and claw weights hang under a part of the stitches:
    that part comes out longer. A last row over all is no harm (common practice, no source).
    """
    if rows > 1 and not bed.holding and bed.claws and Weight.EVEN in bed.weights and (
            bare := row - bed.claws):
        raise Refused("claws-uneven", bare, "the claw weights off where none is held any more",
                      f"they hang under {bed.claws} alone")


def need_weights_off(bed: Bed, why: str) -> None:
    """Refuse to lift or fold work that weights pull at."""
    if bed.weights:
        hung = ", ".join(sorted(weight.value for weight in bed.weights))
        raise Refused("weights-on", bed.loaded, f"all weights off before {why}", hung)


def need_light(bed: Bed, needles: Needles) -> None:
    """Refuse to bind off stitches under which weights still hang.

    The last that are on the bed need all weights off; others, their claw weights.
    """
    if bed.loaded == needles:
        need_weights_off(bed, "the last stitches come off")
    elif (heavy := bed.claws & needles) and (bed.working & bed.loaded) <= needles:
        raise Refused("weights-on", heavy, "the claw weights off before these stitches",
                      "they hang there")


def need_weightless(bed: Bed, needles: Needles) -> None:
    """Refuse to lift stitches off with a thread while weights pull at them: they would hang by
    that thread alone (common practice, no source)."""
    heavy = needles - bed.light if bed.weights - {Weight.CLAWS} else bed.claws & needles
    if heavy:
        raise Refused("weights-on", heavy, "the weights off before these stitches come off",
                      "they hang there")


def release(bed: Bed) -> None:
    """Weights come off with the stitches that carried them; those under others stay.

    Claw weights were moved along under the stitches in work, so that none is left under held ones.
    """
    left = bed.loaded
    if not left:
        bed.weights, bed.claws = frozenset(), NONE
    elif bed.claws and not bed.claws & (left - bed.holding):
        bed.weights, bed.claws = bed.weights - {Weight.CLAWS}, NONE


def need_set_back(bed: Bed) -> None:
    """Refuse a machine left set for what is over: a lever, a feeder, an end, a weight."""
    if bed.carriage is not Carriage.KNIT:
        raise Refused("lever-left", NONE, "the carriage set to knit at the end",
                      f"set to {bed.carriage.value}")
    if bed.yarns is not Yarns.ONE:
        raise Refused("lever-left", NONE, "the carriage set to knit one yarn at the end",
                      f"set to knit {bed.yarns.value}")
    bed.need_empty_feeder()
    for yarn, end in bed.ends.items():
        if end.joined and yarn != bed.program.cord_yarn:
            raise Refused("end-uncut", NONE, f"{yarn} cut", f"it hangs at the {end.side.value}")
    need_weights_off(bed, "the end")
