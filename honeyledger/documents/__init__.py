"""What is printed: bytes of PDF from rows of plain values."""
