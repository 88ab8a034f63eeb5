"""Write-ups with what is inserted into them."""
