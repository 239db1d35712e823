"""Setting a house up: its name, yards, vessels, boxes, people, products and customers."""
