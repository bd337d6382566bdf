"""What a source can name: kinds of band, ways on and off the bed, pockets; each as data."""
