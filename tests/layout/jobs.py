"""Jobs as a shop has them, by number: the same number is the same job."""

from random import Random

from core.document.model import FrameWish, Project, Sheet, Shelf

DEPTHS = (150.0, 200.0, 210.0, 228.6, 250.0, 300.0)
HEIGHTS = (63.5, 76.2, 80.0, 84.0, 90.0, 100.0)
ENDS = ("mitred", "mitred", "open")


def shelves(chance: Random, count: int) -> tuple[Shelf, ...]:
    """Shelves of a few depths and heights, 400 to 1800 mm long."""
    depths = [chance.choice(DEPTHS) for _ in range(chance.randint(1, 3))]
    heights = [chance.choice(HEIGHTS) for _ in range(chance.randint(1, 3))]
    return tuple(
        Shelf(
            f"s{n}",
            round(chance.uniform(400.0, 1800.0), 1),
            chance.choice(depths),
            chance.choice(heights),
            left=chance.choice(ENDS),  # type: ignore[arg-type]  # one of two words
            right=chance.choice(ENDS),  # type: ignore[arg-type]
            ends_from=chance.choice(("front", "front", "front", "top")),  # type: ignore[arg-type]
            scribe=chance.choice((0.0, 0.0, 6.0)),
        )
        for n in range(count)
    )


def shop_job(number: int, most: int = 12) -> Project:
    """Up to `most` shelves with frames, from as many sheets as they need, in each third job of two kinds."""
    chance = Random(number)
    count = chance.randint(1, most)
    thickness = chance.choice((12.0, 15.0, 17.9, 18.2))
    sheets = [Sheet("A", 2440.0, 1220.0, thickness, quantity=most)]
    if chance.random() < 0.3:
        sheets.append(Sheet("B", 1525.0, 1525.0, thickness, quantity=4))
    return Project(tuple(sheets), shelves(chance, count))


def small_job(number: int) -> Project:
    """Up to 5 shelves, each with one rail: few enough pieces for trying everything."""
    chance = Random(1000 + number)
    stock = Sheet("A", chance.choice((1525.0, 2440.0)), chance.choice((1220.0, 1525.0)), 18.2, quantity=5)
    made = tuple(s for s in shelves(chance, chance.randint(1, 5)) if s.length < stock.length - 700.0)
    return Project((stock,), made or (Shelf("s", 700.0, 200.0, 80.0),), frame=FrameWish(front_layers=0))
