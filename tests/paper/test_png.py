import pytest
from PySide6.QtGui import QColor, QImage

from app.paper import png
from app.paper.png import png_bytes
from core.plan.make import make_plan
from tests.drawing.plans import hallway, many, plan_of

pytestmark = pytest.mark.usefixtures("qapp")


def picture(data: bytes) -> QImage:
    image = QImage.fromData(data, "PNG")
    assert not image.isNull()
    return image


def colours(image: QImage) -> set[str]:
    return {QColor(image.pixel(x, y)).name() for x in range(0, image.width(), 3) for y in range(0, image.height(), 3)}


@pytest.mark.parametrize("width", [600, 2400])
def test_a_picture_is_as_wide_as_asked(width: int) -> None:
    image = picture(png_bytes(plan_of("hallway"), width_px=width))
    assert image.width() == width
    assert image.width() / 4 < image.height() < image.width()


def test_a_picture_shows_wood() -> None:
    image = picture(png_bytes(plan_of("hallway"), width_px=1200))
    assert len(colours(image)) > 20
    assert QColor("#E3C89B").name() in colours(image)


def test_other_drawings_have_pictures_too() -> None:
    assert picture(png_bytes(plan_of("hallway"), "seam ledge/top-front", 800)).width() == 800
    with pytest.raises(KeyError):
        png_bytes(plan_of("hallway"), "sheet Z")


def test_sheets_stand_one_under_the_other() -> None:
    plan = make_plan(many(5))
    one, several = (picture(png_bytes(p, width_px=900)) for p in (make_plan(hallway()), plan))
    assert several.height() > (len(plan.sheets) - 0.5) * 0.8 * one.height()


def test_a_picture_is_never_higher_than_qt_paints(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(png, "HIGHEST", 500)
    image = picture(png_bytes(make_plan(many(5)), width_px=2400))
    assert 400 < image.height() <= 500
    assert png.HIGHEST < 32_767
