"""Everyday jobs as other people put them: hurried, dictated, from a production kitchen, by polite mail, in US units.

The sentences are our own, each table one way of asking, with what must not be read so beside it.  Sums are worked by
hand beside each group; volumes add, and the usual sizes are those of the other tests (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from stillroom_bot.conversation import Conversation
from turns import measures

Row = tuple[str, float, str]

OF_A_POWDER: list[Row] = [
    ("what weight of xanthan goes into 1.5 l lime juice at 2 g/l?", 3, "gram"),
    ("Weight of powdered gelatine for 3 litres of grape juice at 12 g per litre, please?", 36, "gram"),
    ("i have 2 l of pineapple juice for a jelly, what is the weight of agar at 0.9 percent", 18, "gram"),
    ("What weight of salt goes into 3 l of water for a 2% brine", 61.114, "gram"),
    ("what's the weight of 4 litres of orange juice?", 4210, "gram"),
    ("what weight is 2 l of lime juice", 2045.8, "gram"),
]
"""A weight asked of a powder is no weight of the liquid: 1.5 x 2; 3 x 12; 20 x 0.9; 3 l of water at 0.9982 g/ml are
2994.6 g, x 2 / 98.  Near by, weights of liquids: 1052.5 and 1022.9 g/l (USDA's cups of the juices)."""
POWDER_UNDOSED = [
    "What weight of agar do I need for 2.5 litres of cucumber juice?",
    "hi, pls tell the weight of gellan for 800 ml tomato water",
    "Kindly advise the mass of pectin required for 6 l of raspberry puree.",
    "Which weight of iota carrageenan for 900 ml of milk?",
    "Dear all, 5 litres of apple juice are waiting for Friday (60 guests). What mass of agar shall we add? Regards",
]
BEFORE_ICE: list[Row] = [
    ("2 oz 100 proof bourbon, 1 oz lemon juice, 1 oz simple. ABV before I stir it?", 25, "percent"),
    ("what's the strength before shaking: 50 ml rum 40%, 25 ml lime, 25 ml syrup", 20, "percent"),
    ("60ml gin 45%, 30ml lemon, 15ml honey syrup - whats abv before its shaken", 25.714, "percent"),
    ("Please, which ABV has it before it is shaken? 40 ml vodka at 40 %, 40 ml grapefruit juice.", 20, "percent"),
    ("1.5 oz 80 proof tequila, .75 oz lime, .75 oz agave syrup. proof before I shake?", 40, "proof"),
    ("abv pre shake: 45 ml brandy 40%, 45 ml apple juice", 20, "percent"),
    ("what's the abv once shaken, 50 ml rum 40%, 25 ml lime, 25 ml syrup", 13.434, "percent"),
    ("each drink is 75 ml at 36 % ABV before it is stirred. What volume have we once it is strained?", 107.756,
     "milliliter"),
]
"""Ethanol over drink: 1/4; 20/100; 27/105; 16/80; 1.2/3 as proof; 18/90.  Near by, what is asked afterwards: shaken at
20 % takes up 48.87 % (20 / 1.4887), stirred at 36 % 43.67 % (75 x 1.4367)."""
ONE_TOLD: list[Row] = [
    ("One serve is 40 ml gin, 20 ml lemon and 20 ml syrup. I'm filling a 4 litre dispenser. Gin in ml?", 2000,
     "milliliter"),
    ("a single drink's 30 ml rum, 60 ml pineapple juice, 10 ml lime; filling a 5 l jug with nothing else: rum in ml?",
     1500, "milliliter"),
    ("1 serve = 50 ml tequila + 30 ml lime + 20 ml agave; 6 l container to fill; lime?", 1800, "milliliter"),
    ("One cocktail has 60 ml whisky and 20 ml syrup. The barrel takes 4 l. Whisky?", 3000, "milliliter"),
    ("one drink's 1 oz gin, 1 oz bitter aperitif, 1 oz vermouth. fill a 750 ml bottle. gin in ml?", 250, "milliliter"),
    ("one serve's 40 ml gin and 20 ml lemon. 25 serves: gin in ml?", 1000, "milliliter"),
    ("one serve is 40 ml gin, 20 ml lemon. how many serves from a 3 litre dispenser?", 50, "count"),
    ("two things run short:\nrum 1.2 l\nlime juice 900 ml\none drink is\n60 ml rum\n30 ml lime juice\nhow many drinks?",
     20, "count"),
]
"""Half of 4 l; 0.3 of 5 l; 0.3 of 6 l; three quarters of 4 l; a third of 750 ml; 25 x 40; 3000 / 60; 1200 / 60."""
INCLUDED: list[Row] = [
    ("Rum 40 ml\nLime 20 ml\nWater 20 ml\nScale to 4 l total incl. water", 2000, "milliliter"),
    ("Gin 30 ml\nBitter 30 ml\nVermouth 30 ml\nWater 10 ml\n-> 3 l incl. water", 900, "milliliter"),
    ("vodka 50, water 25, liqueur 25 (ml). make 2 l all in, water included", 1000, "milliliter"),
    ("30 ml gin, 30 ml vermouth, 15 ml water. Scale to 5 litres including the water.", 2000, "milliliter"),
    ("Scale to 2.4 l including dilution:\nrye 60 ml\nvermouth 30 ml\nwater 30 ml", 1200, "milliliter"),
    ("50 ml gin, 25 ml vermouth for 40 serves with 20 % dilution: how much water?", 600, "milliliter"),
]
"""Half of 4 l; 0.3 of 3 l; half of 2 l; 0.4 of 5 l; half of 2.4 l; near by, 20 % of 3 l."""
PUT_TOGETHER: list[Row] = [
    ("mixed 2 litres of punch with 500 ml of milk. what's the drink to milk ratio?", 4, "dimensionless"),
    ("Last night I combined 1.5 l milk with 6 l of cocktail. Which ratio drink to milk is it?", 4, "dimensionless"),
    ("combined 900ml drink w 300ml milk ratio??", 3, "dimensionless"),
    ("i put together three pints of grog with one pint of milk so what ratio of drink to milk is that", 3,
     "dimensionless"),
    ("Please be so kind: 5 l of the batch were combined with 1 l of milk. Drink : milk ratio?", 5, "dimensionless"),
    ("one gallon punch combined with one quart milk, ratio of drink to milk?", 4, "dimensionless"),
    ("total of 5 l with 1 l of milk in it, drink to milk ratio?", 4, "dimensionless"),
    ("combined punch and milk is 2.5 l, milk 500 ml, what ratio drink to milk", 4, "dimensionless"),
]
"""What is combined with what is no total: 2/0.5; 6/1.5; 900/300; 3/1; 5/1; 4/1.  Near by, totals: (5 - 1)/1; 2/0.5."""
WANTED_FIRST: list[Row] = [
    ("For the bar I need honey syrup of 50 °Bx, and I have honey 80 °Bx, it is 2 kg. How much water to add?", 1200,
     "gram"),
    ("I want a honey syrup of 40 brix. My honey is 82 brix, 1 kg of it. Water to add?", 1050, "gram"),
    ("need agave syrup at 45 bx, got 900 g agave at 75 bx, how much water", 600, "gram"),
    ("Wanted: syrup of 55 °Bx. In stock: syrup of 66 °Bx, 3 kg. Water to add?", 600, "gram"),
    ("i need maple syrup at 44 bx out of maple 66 bx 600 g how much h2o", 300, "gram"),
    ("She prefers a simple syrup of 40 brix; the tub is 50 brix, 2 kg. Water?", 500, "gram"),
    ("need honey at 60 brix from honey at 80 brix, 30 oz by weight, how many oz water?", 10, "ounce"),
    ("Hi team, house spec wants a honey syrup of 52 °Bx; delivered honey: 78 °Bx, 1.2 kg. Water, g?", 600, "gram"),
    ("I need to thin a syrup of 60 brix to 40 brix, 1 kg, how much water?", 500, "gram"),
    ("we like the syrup of 60 brix but this one is 50 brix, 1 kg, sugar to add?", 250, "gram"),
]
"""Sugar stays: 2 x 80 / 50 - 2; 82/40 - 1; 0.9 x 75 / 45 - 0.9; 3 x 66 / 55 - 3; 0.6 x 66 / 44 - 0.6; 2 x 50 / 40 - 2;
30 x 80 / 60 - 30; 1.2 x 78 / 52 - 1.2; 1.5 - 1.  Near by, sugar to add: 0.5 kg of water are 40 % of 1.25 kg."""
TOLD_APART: list[Row] = [
    ("Our beekeeper brought jars 3 to 8, in total 1.5 kg of honey at 80 brix. I want a 50 brix syrup. Water?", 900,
     "gram"),
    ("jars 14-19, altogether 2.4 kg of honey at 81 brix, needs to be 45 brix: water?", 1920, "gram"),
    ("Honey came in jars 4 to 9: 1.2 kg, which the meter puts at 80 brix. The chef prefers a honey syrup of 48 brix. "
     "How much water should go in, please?", 800, "gram"),
    ("kegs 2 to 5 are done. now 600 g of 10 % saline: salt?", 60, "gram"),
    ("For jugs 2-4 we make 1.5 l of tomato juice with agar at 0.8 %. Agar?", 12, "gram"),
    ("demijohns 1 to 3 get cocoa at 40 g/l, 2 litres of rum in total: cocoa?", 80, "gram"),
    ("cases 7 to 9 hold the limes. 2 l of lime juice at 30 ml a lime, how many limes?", 67, "count"),
    ("bottles: 2 to open, 700 ml each; 50 ml pours: how many pours?", 28, "count"),
    ("parts 2 to 1 sugar to water, 1.2 kg syrup, sugar?", 800, "gram"),
]
"""Numbers of jars: 1.5 x 80 / 50 - 1.5; 2.4 x 81 / 45 - 2.4; 1.2 x 80 / 48 - 1.2; 10 % of 600; 8 x 1.5; 40 x 2;
2000 / 30.  Near by, 1400 / 50 and two thirds of 1.2 kg."""
FULL: list[Row] = [
    ("My jug is 2 litres and should come out at 12% ABV. How many ml of 40% vodka is that?", 600, "milliliter"),
    ("The bowl holds 5 l and has to land at 10 % ABV. How much 40% rum?", 1250, "milliliter"),
    ("pitchers 60 oz, want 20% abv. oz of 80 proof gin?", 30, "fluid_ounce"),
    ("my dispenser takes 8 litre and must be at 15 % abv, how many litres of 60 % spirit is it", 2, "liter"),
    ("I'd like the 3 litre carafe to land at 16 % ABV - how much 48 % gin would that be, please?", 1000, "milliliter"),
    ("my jug's two litres and i want it at twenty percent how many mils of fifty percent vodka is that", 800,
     "milliliter"),
    ("keg is 19 l, target 8% ABV, ml of 38% spirit?", 4000, "milliliter"),
    ("a 96 oz pitcher at 10% abv takes how many oz of 80 proof whiskey", 24, "fluid_ounce"),
    ("The jug of 60% rum is 2 litres, how much water to get it to 40%?", 1027.76, "milliliter"),
    ("I have 64 fl oz of 80 proof tequila and it should land at 15% ABV. How much water is that?", 106.595,
     "fluid_ounce"),
]
"""Ethanol over what is full: 2 x 12 / 40; 5 x 10 / 40; 60 x 20 / 40; 8 x 15 / 60; 3 x 16 / 48; 2 x 20 / 50; 19 x 8 /
38; 96 x 10 / 40.  Near by, water to a spirit, twice 513.88 and 64 times 1.66555, by the densities of OIML R 22."""
OF_EACH_ONE: list[Row] = [
    ("There are 40 oranges in the box and of each one I take 12 g of peel. Total peel in grams?", 480, "gram"),
    ("of every one of the 45 lemons we zest 6 g. grams of zest in total?", 270, "gram"),
    ("i've got 18 lemons n get 9g zest off each one, grams total pls", 162, "gram"),
    ("The box holds 100 limes; each one yields 28 ml of juice. Litres of juice?", 2.8, "liter"),
    ("For a tasting, kindly calculate: 15 grapefruits, of each one 22 g of peel. Total peel?", 330, "gram"),
    ("how many grams of peel is it if each one of my 16 oranges gives 11 g", 176, "gram"),
    ("We have eighty lemons, each gives five grams of zest. The total of zest please?", 400, "gram"),
    ("each one litre bottle costs £20, what's a 50 ml pour?", 1, "currency"),
    ("of 60 lemons I got 480 g of zest, how much each one?", 8, "gram"),
]
"""So many times so much.  Near by, a litre bottle, and 480 / 60."""
WHAT_PERCENT: list[Row] = [
    ("somebody poured 50 g salt in 450 g water and labelled it SALINE with no strength. what % is it", 10, "percent"),
    ("30 g salt went in 570 g water, what % is it?", 5, "percent"),
    ("What % is it if 25 g malic acid went into 475 g water", 5, "percent"),
    ("the new guy dissolved 200 g of salt in 800 g of water; which % shall I write on the bottle?", 20, "percent"),
    ("I found a jar: 60 g salt in 940 g water. what percent do i write on the label", 6, "percent"),
    ("If I dissolve 40 g of sugar and finish with 500 g of solution, how much water did I use and what % is it?", 460,
     "gram"),
    ("90g salt in 1.41 kg water, what does it weigh all together?", 1500, "gram"),
]
"""Of the solution: 50/500; 30/600; 25/500; 200/1000; 60/1000.  Near by, water of 500 g and 90 + 1410."""
LABELLED: list[Row] = [
    ("70 cl rum, 40 on the label. how many uk units in the bottle", 28, "count"),
    ("750 ml wine, label says 13. UK units?", 9.75, "count"),
    ("330ml beer, 5 on the can. uk units?", 1.65, "count"),
    ("a litre of rum with 43 on the label, how many UK units does it hold?", 43, "count"),
    ("Kindly compute the UK units in 70 cl of whisky; the label says 46.", 32.2, "count"),
    ("50 ml gin, 45 on the label, 150 ml tonic: abv of the glass?", 11.25, "percent"),
    ("700 ml of brandy, 38 on the label: grams of alcohol?", 209.94, "gram"),
    ("table 12 on the list, 50 ml gin at 40 %, UK units?", 2, "count"),
    ("700 ml gin, £18 on the label, 25 ml pour, cost of a pour", 0.6429, "currency"),
]
"""UK units of 10 ml of ethanol: 700 x 0.4; 750 x 0.13; 330 x 0.05; 1000 x 0.43; 700 x 0.46; 50 x 0.45 / 200; 266 ml at
0.78924 g/ml (OIML R 22).  Near by, 20 ml of ethanol and 18 x 25 / 700."""
BOUGHT: list[Row] = [
    ("Litre bottle of vodka's 20 quid. cost of a 25 ml measure?", 0.5, "currency"),
    ("our 75 cl bottle of wine's $15, how much does a 150 ml glass cost us", 3, "currency"),
    ("A litre of gin costs us 24 euros. How much is 40 ml of it?", 0.96, "currency"),
    ("Litre bottle of tequila is £40: how much does 50 ml of it cost?", 2, "currency"),
    ("Our litre bottle of vermouth is 15 euros. What does a 60 ml pour cost?", 0.9, "currency"),
    ("litre bottle gin, £28. cost of 50ml?", 1.4, "currency"),
    ("A 70 cl bottle of amaro costs us €28. How much is a 25 ml measure of it?", 1, "currency"),
    ("a 50 ml pour costs £1.50 from a 700 ml bottle. what did the bottle cost?", 21, "currency"),
    ("litre siphon, 3 fills: how many chargers?", 6, "count"),
]
"""Price x pour / bottle.  Near by, what the bottle cost, 1.50 x 14, and two chargers a fill."""
A_POP: list[Row] = [
    ("120 palomas, 45 ml tequila a pop, 75 cl bottles. How many bottles do I order?", 8, "count"),
    ("We do 90 spritzes tonight at 60 ml aperitif a go; 700 ml bottles. bottles to buy?", 8, "count"),
    ("2 oz gin a throw, 64 gimlets, how many 750 ml bottles?", 6, "count"),
    ("Mangoes run 400 g a pop and 45 % of that is juice. How many whole ones for 9 kg of juice?", 50, "count"),
    ("90 mojitos, 50 ml rum each, litre bottles. How many do I bring up?", 5, "count"),
    ("How many full ones of 250 ml can be filled from 3 litres?", 12, "count"),
]
"""5400 / 750; 5400 / 700; 128 oz are 3785.4 ml, / 750; 9000 / 180; 4500 / 1000; near by, 3000 / 250."""
ON_THE_LITRE: list[Row] = [
    ("agar at 8 g on the litre. How much agar for 2.5 litres of grape juice?", 20, "gram"),
    ("Dose is 3 g for one litre, how much xanthan for 750 ml of lime cordial?", 2.25, "gram"),
    ("With 40 grams on the litre, how much dried hibiscus for 1,5 l of gin?", 60, "gram"),
    ("gellan: 2 g in every 100 ml. 1.5 litres of pear juice. gellan?", 30, "gram"),
    ("Cacao nibs 30 grams for one litre, I infuse 3 litres of rum, how many grams of nibs?", 90, "gram"),
    ("Our soda has 3 volumes from CO2, this is how much gram in the litre?", 5.931, "gram / liter"),
]
"""8 x 2.5; 3 x 0.75; 40 x 1.5; 20 x 1.5; 30 x 3; 1.977 x 3."""
HOW_STRONG: list[Row] = [
    ("I put 35 g of salt into 965 g of water. How strong's the brine?", 3.5, "percent"),
    ("200 g sugar stirred into 300 g water - how strong is my syrup now?", 40, "percent"),
    ("the tin gets 90 ml at 24 %, shaken. How strong's it when it's strained?", 15.678, "percent"),
    ("I dissolved 50 g of citric acid in 450 g of water so how strong is this solution", 10, "percent"),
    ("how strong will 2 litres of 40% vodka with 1 litre of apple juice be?", 26.667, "percent"),
    ("We have 2 l of negroni with 28 percent and add water, one quarter of this volume. Which alcohol has it then?",
     22.4, "percent"),
    ("3 litre martini mix, 30 % alcohol afterwards, water was one fifth of its volume. What alcohol before?", 36,
     "percent"),
    ("80 ml at 30 % stirred: how much comes out", 112.79, "milliliter"),
]
"""35 / 1000; 200 / 500; shaken at 24 % takes up 53.08 % (24 / 1.5308); 50 / 500; 0.8 / 3; 28 / 1.25; 30 x 1.2; near by,
stirred at 30 %: 80 x 1.4099."""
ONE_BY_ONE: list[Row] = [
    ("Each of 40 limes gives 28 ml of juice. How much juice in all?", 1120, "milliliter"),
    ("every one of 25 oranges yields 15 g of peel; sugar 1:1 by weight. How much sugar?", 375, "gram"),
    ("Each of the 50 lemons gave 9 g of peel. Peel and sugar are equal weights: mass of sugar?", 450, "gram"),
    ("40 limes gave 980 ml of juice. how much juice per lime?", 24.5, "milliliter"),
    ("30 lemons gave 360 g of zest. 2 parts peel to 1 part sugar, what mass of sugar?", 180, "gram"),
]
"""40 x 28; 25 x 15; 50 x 9; near by, what they gave together: 980 / 40; 360 / 2."""
SHORT_PARTS: list[Row] = [
    ("need 80g of acid, 3 pts citric 1 pt malic by weight. malic?", 20, "gram"),
    ("acid blend 120 g: 2 pts malic, 1 pt tartaric, by mass - how much malic", 80, "gram"),
    ("make 600 g acid mix 5 pts citric 1 pt malic by wt, citric?", 500, "gram"),
    ("one pint punch combined with 2 pts milk, total in pints?", 3, "pint"),
]
"""80 / 4; 120 x 2 / 3; 600 x 5 / 6; near by, pints."""
SAME_ACID: list[Row] = [
    ("In terms of acid, what volume of lemon juice is equivalent to 600 ml of pineapple juice?", 80, "milliliter"),
    ("how much lime juice is equivalent to 300 ml of grapefruit juice in acid content?", 100, "milliliter"),
    ("Which volume of orange juice is equal to 90 ml of lime juice in acid?", 675, "milliliter"),
    ("By acid content, 1.5 litres of pineapple juice is equivalent to what volume of lemon juice?", 200, "milliliter"),
    ("what volume do 900 g of lemon juice take up?", 872.7, "milliliter"),
    ("Mix 300 ml of juice of lime and 700 ml of juice of pineapple. What acidity has it together, in g/l?", 23.6,
     "gram / liter"),
    ("how many litres of juice of orange from 40 oranges at 70 ml each?", 2.8, "liter"),
    ("We have 1 l orange juice to make as sharp as lime juice, only citric acid is here. What weight of it do we need?",
     52, "gram"),
    ("2 litres of pineapple juice in a tub. what's the weight of it?", 2076, "gram"),
]
"""Lime and lemon 6, grapefruit 2, orange and pineapple 0.8 g in 100 ml: 600 x 0.8 / 6; 300 x 2 / 6; 90 x 6 / 0.8;
1500 x 0.8 / 6; 0.3 x 60 + 0.7 x 8; (60 - 8) x 1.  Near by: 900 / 1.0313; 40 x 70; 2000 x 1.038."""
IN_A_VESSEL: list[Row] = [
    ("our bowl holds 15 litres and everything, drink and milk, must fit in it. 4:1. How many litres of milk?", 3,
     "liter"),
    ("I've a bucket that takes 5 l; both punch and milk go in. How much milk at the usual ratio?", 1, "liter"),
    ("A pot which can hold 20 litres, both the drink and the milk have to go in it. How much milk?", 4, "liter"),
    ("a keg that holds 10 litres is full of drink. milk for it?", 2.5, "liter"),
    ("need to fill six 500 ml bottles with rich syrup. sugar?", 2653.5, "gram"),
    ("fill three 1 litre bottles with simple syrup, how much sugar do i weigh", 1844.5, "gram"),
    ("I have to fill 4 half litre bottles with 20 % saline. How much salt?", 459.1, "gram"),
    ("need to fill two 750 ml bottles with rich syrup, how much syrup is it", 1500, "milliliter"),
    ("our 5 l dispenser should land at 12 %; how much 40 % vodka goes in?", 1500, "milliliter"),
    ("the 2 litre jug must end up at 20 % abv. How much 50 % rum?", 800, "milliliter"),
    ("I've got an empty 8 oz squeeze bottle and want it full of 20 % saline. How many grams of salt do I weigh?", 54.31,
     "gram"),
    ("empty 1 l jar to fill with rich syrup, how much sugar?", 884.5, "gram"),
    ("a 250 ml dropper bottle to be filled with 20 % saline, how many grams of salt?", 57.39, "gram"),
    ("500 ml of 2:1 syrup. Water, what amount?", 221.13, "gram"),
    ("3 litres of punch to clarify. The milk, which volume please?", 750, "milliliter"),
    ("From the cask of 50 litres, how many glasses of 200 ml can we pour?", 250, "count"),
    ("from the barrel of 24 litres how many full glasses of 150 ml can I sell", 160, "count"),
]
"""A fifth of 15, 5 and 20 l; near by, a quarter of 10 l.  Rich syrup 1.3268 g/ml, two thirds sugar; simple 1.2297, half
of it; 20 % saline 1.1478 g/ml, a fifth salt: 2 l, 236.6 and 250 ml of it; near by, 2 x 750;
50000 / 200; 24000 / 150; 500 x 1.32675 / 3; 3000 / 4; 5000 x 12 / 40; 2000 x 20 / 50."""
IN_BRACKETS: list[Row] = [
    ("The sugar is already weighed out (500 g) and the syrup has to be 50 brix. How much water?", 500, "gram"),
    ("If the water is already boiled (2 kg) and the brine must be 5 % salt by weight, how much salt?", 105.26, "gram"),
    ("I add the salt to the water (900 g), 5 % brine by weight. How much salt?", 47.37, "gram"),
    ("The peels of the grapefruit are in already (240 g), sugar 1:1, how much sugar?", 240, "gram"),
    ("the saline is already mixed (900 g) and is 10 % salt by weight, how much salt is in it?", 90, "gram"),
    ("what weight of 4% citric solution (w/w) do I get from 60 g of citric", 1500, "gram"),
]
"""500 / 0.5 - 500; 2000 x 5 / 95; 900 x 5 / 95; 240 x 1; near by, 900 x 0.1; 60 / 0.04."""
OF_THEM: list[Row] = [
    ("One glass takes 40 ml gin, 20 ml lemon and 20 ml syrup. If a 4 litre jug is filled with it, how many ml of it "
     "are gin?", 2000, "milliliter"),
    ("one glass gets 1 oz rum, 3 oz cola. Half gallon pitcher, how many ounces of it are rum?", 16, "fluid_ounce"),
    ("a drink is 30 ml rum, 30 ml lime, 60 ml soda. For 20 drinks, how many ml of them are soda?", 1200, "milliliter"),
    ("In each glass go ten drops from a saline of 20 percent. What weight has the salt per glass?", 0.11478, "gram"),
    ("what mass has the sugar in 500 ml of rich syrup", 442.25, "gram"),
    ("What weight has 2 litres of lime juice?", 2045.8, "gram"),
    ("Number of N2O chargers for a half litre siphon?", 1, "count"),
    ("number of gelatine leaves for 500 ml of juice at 1.2 %, silver leaf 2.5 g", 3, "count"),
    ("number of drops in 3 ml", 60, "drop"),
    ("The scale is all in grams and the recipe says 12 oz of sugar, what's that?", 340.19, "gram"),
    ("pressure gauge all in psi, keg at 1.2 bar, what's that?", 17.405, "psi"),
    ("we're all in for 40 guests, 90 ml each, how many litres?", 3.6, "liter"),
    ("The lemon skins are with the sugar since this morning. After how many hours can I take out the oil syrup?", 48,
     "hour"),
]
"""Half of 4 l; a quarter of 64 oz; 20 x 60; 0.5 ml x 1.1478 x 0.2; 500 x 1.32675 x 2 / 3; 2 x 1022.9; one charger;
6 / 2.5; 3 x 20; 12 x 28.3495; 1.2 x 14.5038; near by, 40 x 90; 48 h are common practice, no source."""
ASKED_BACK = [
    "the empty bowl is 310 g, with the syrup 900 g. how much syrup?",
    "the empty 400 g jar: weighed with the syrup 900 g, rich. how much sugar?",
    "my jug holds 2 litres and is full of drink, how much milk to clarify it?",
    "I have 2 kg of sugar and 3 l of lime juice. What is the weight of it?",
    "need 2 oz citric and malic, 3 pt to 1 pt by wt. citric in g?",
    "20 g sugar a pop for 30 jars, sugar in total?",
    "14 g of gelatine on the whole litre of cream?",
]
ALL: Sequence[Row] = [*OF_A_POWDER, *BEFORE_ICE, *ONE_TOLD, *INCLUDED, *PUT_TOGETHER, *WANTED_FIRST, *TOLD_APART, *FULL,
                      *OF_EACH_ONE, *WHAT_PERCENT, *LABELLED, *BOUGHT, *A_POP, *ON_THE_LITRE, *HOW_STRONG, *ONE_BY_ONE,
                      *SHORT_PARTS, *SAME_ACID, *IN_A_VESSEL, *IN_BRACKETS, *OF_THEM]
HISTORY = [
    "I am told that they clarify with milk: since when, and who was the first?",
    "when was the siphon invented and by whom",
    "since when do people put egg white in sours",
    "When were the first cocktails made?",
    "by whom was the soda siphon invented, please?",
]
CANNOT_BE = [
    "What volume of water must I add to 1 l of a 40 % spirit to get a 55 % spirit?",
    "Exercise 9: what volume of water must be added to 300 ml of a 38% spirit in order to obtain a 50% spirit?",
]


@pytest.mark.parametrize(("said", "value", "unit"), ALL)
def test_it_is_heard_in_other_words(talk: Conversation, said: str, value: float, unit: str) -> None:
    measures(talk, said, value, unit)


@pytest.mark.parametrize("said", ASKED_BACK)
def test_what_is_not_said_is_asked_for(talk: Conversation, said: str) -> None:
    reply, _ = talk.answer(said)
    assert reply.to_json()["status"] == "asks"


@pytest.mark.parametrize("said", POWDER_UNDOSED)
def test_a_powder_without_a_dose_is_asked_about(talk: Conversation, said: str) -> None:
    reply, _ = talk.answer(said)
    told = reply.to_json()
    assert told["status"] == "asks"
    assert "dose" in told["asks"]["missing"]


def test_the_dose_that_was_asked_for_is_taken(talk: Conversation) -> None:
    _, state = talk.answer("Could you tell me the weight of powdered agar for 3 litres of perry jelly, please?")
    reply, state = talk.answer("Sorry, of course: 1.1 percent", state)
    assert reply.to_json()["answer"][0]["value"] == pytest.approx(33)
    reply, _ = talk.answer("and if we only made 1.8 litres of it?", state)
    assert reply.to_json()["answer"][0]["value"] == pytest.approx(19.8)


@pytest.mark.parametrize("said", CANNOT_BE)
def test_water_makes_nothing_stronger(talk: Conversation, said: str) -> None:
    reply, _ = talk.answer(said)
    assert reply.to_json()["status"] == "declined"


@pytest.mark.parametrize("said", HISTORY)
def test_no_measure_answers_who_was_the_first(talk: Conversation, said: str) -> None:
    reply, _ = talk.answer(said)
    assert reply.to_json()["status"] == "declined"
