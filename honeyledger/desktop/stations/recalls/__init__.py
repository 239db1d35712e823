"""Recalls: a case opened, customers told and heard, its papers, its end; and rehearsals."""
