"""From a described frame to what every part of it must carry."""
