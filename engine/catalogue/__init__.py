"""What a source can name: kinds of band, forms, ways on and off the bed, pockets; as data."""
