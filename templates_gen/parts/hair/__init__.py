"""The hair. The width of its ribbon decides the width of most other parts."""
