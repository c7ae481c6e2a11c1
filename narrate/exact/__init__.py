"""Exact numbers, expression trees and the ways they are written."""
