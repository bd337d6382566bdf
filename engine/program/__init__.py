"""Plans written as steps, each with its claim: the parts that pieces and bands are made of."""
