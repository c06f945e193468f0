"""Money: prices, the budget, what a change costs, what broke."""
