"""The names of the places of digits, by what one in each is worth."""

from fractions import Fraction

PLACES = {
    Fraction(1): "ones", Fraction(10): "tens", Fraction(100): "hundreds",
    Fraction(1000): "thousands", Fraction(10_000): "ten thousands",
    Fraction(100_000): "hundred thousands", Fraction(1_000_000): "millions",
    Fraction(1, 10): "tenths", Fraction(1, 100): "hundredths", Fraction(1, 1000): "thousandths",
}  # fmt: skip
