"""Cross-sections: geometry to properties, the library of stock sizes and its look-up."""
